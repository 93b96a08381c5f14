// An inclusion proof small enough for a QR code on paper; its form stands in FORMAT.md. The whole
// tree under the newest seal is kept, so that a hundred proofs cost hardly more than one. Needs
// sixty-four bytes of memory for each sealed entry.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/ledger.hpp"
#include "ledger/seal.hpp"

namespace holdpin {

class SealedTree {
  public:
    // Error: damaged, if the entries are not those that the newest seal covers.
    static Result<SealedTree> of(Database& db, Ledger& ledger);

    // "HP1:…" for an entry; empty where no seal covers it.
    Result<std::string> proof(const Entry& entry) const;
    const std::optional<Seal>& seal() const { return seal_; }

  private:
    std::vector<Hash> path(std::uint64_t index) const;
    std::optional<Seal> seal_;
    std::vector<std::vector<Hash>> levels_;  // leaves first, the root last
};

// For a stranger: python3 and openssl alone check what a QR code says. Goes into the binder with
// the documents.
extern const std::string_view kQrCheckScript;

// RFC 9285: two bytes as three of 45 characters, all of which a QR code packs tightly.
std::string base45(std::string_view bytes);

}  // namespace holdpin
