// An inclusion proof small enough for a QR code on paper; its form stands in FORMAT.md. One
// pass over the entries finds what the proofs of those wanted need; of the tree under the newest
// seal no more is kept than that.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/ledger.hpp"
#include "ledger/seal.hpp"

namespace holdpin {

class SealedTree {
  public:
    // `wanted`: numbers of the entries that will be proved. Error: damaged, if the entries are not
    // those that the newest seal covers.
    static Result<SealedTree> of(Database& db, const std::vector<std::int64_t>& wanted);

    // "HP1:…" for an entry that was wanted; empty where no seal covers it.
    Result<std::string> proof(const Entry& entry) const;
    const std::optional<Seal>& seal() const { return seal_; }

  private:
    class Grower;
    std::vector<Hash> path(std::uint64_t index) const;
    std::optional<Seal> seal_;
    // Nodes beside the ways from the wanted leaves to the root, by level and place on it; leaves
    // are level 0. One that is not there is of a tree that ends before it.
    using Beside = std::map<std::pair<std::size_t, std::uint64_t>, Hash>;
    Beside beside_;
};

// For a stranger: python3 and openssl alone check what a QR code says. Goes into the binder with
// the documents.
extern const std::string_view kQrCheckScript;

// RFC 9285: two bytes as three of 45 characters, all of which a QR code packs tightly.
std::string base45(std::string_view bytes);

}  // namespace holdpin
