// Which entries lost their body to a purge. Entries `purged` say so in `data.entries`, and the
// kiosk's key has signed what they say; only those count that are as they were written, stand
// under a seal, and name earlier entries. A body that is missing otherwise is a fault.
// They are looked for at the first question, in one pass over the bodies. Used inside ledger/ and
// by the purge.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "ledger/ledger.hpp"

namespace holdpin {

inline constexpr std::string_view kPurged = "purged";

// First and last number of entries that stand beside each other, in order.
using EntryRange = std::pair<std::int64_t, std::int64_t>;

// The keys of `data` that say which bodies are gone, signed by the kiosk.
nlohmann::json purged_data(const KioskKey& key, const std::vector<EntryRange>& ranges);
// What an entry `purged` names, as far as it is older than itself. None where there are none, or
// where they are not signed with `public_key`; empty: it is not asked who signed.
std::vector<EntryRange> purged_by(const Entry& entry, std::span<const std::uint8_t> public_key);

class Purged {
  public:
    // `public_key` must outlive it; null: it is not asked who signed, for a reader without the key.
    Purged(Database& db, const Bytes* public_key) : db_(db), public_key_(public_key) {}

    Result<bool> names(std::int64_t n);

  private:
    Result<std::vector<EntryRange>> load();
    Database& db_;
    const Bytes* public_key_;
    std::optional<std::vector<EntryRange>> ranges_;
};

}  // namespace holdpin
