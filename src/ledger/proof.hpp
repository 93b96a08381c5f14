// Proofs as JSON, for somebody who has neither the kiosk nor this program: FORMAT.md describes them
// field by field and tests/ledger/check_proof.py checks them.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>

#include "ledger/ledger.hpp"

namespace holdpin {

// That entry `n` is under a seal: the smallest one that covers it. Errors: absent (no such entry,
// or no seal covers it yet), damaged.
Result<nlohmann::json> inclusion_json(Database& db, Ledger& ledger, std::int64_t n);
// That the ledger of `size` entries begins with that of `old_size`, 1 <= old_size <= size. The
// seals over the two stand in it, where there are such. Errors: invalid, absent, damaged.
Result<nlohmann::json> consistency_json(Database& db, Ledger& ledger, std::uint64_t old_size,
                                        std::uint64_t size);

}  // namespace holdpin
