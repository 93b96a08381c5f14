// The tree's peaks as they were at each 64th entry, kept beside the entries: with them the root
// over any number of entries costs at most 64 leaves. They follow from the leaves and prove
// nothing by themselves; what they lead to is held against a seal. Used inside ledger/ only.
#pragma once

#include <cstdint>

#include "base/result.hpp"
#include "ledger/tree.hpp"
#include "store/database.hpp"

namespace holdpin {

inline constexpr std::uint64_t kFrontierStep = 64;  // as the table demands

// The largest one over at most `size` entries; the empty tree, where none is kept or it is torn.
Result<Frontier> kept_frontier(Database& db, std::uint64_t size);
// Within the transaction of the entry that made it due.
Result<void> keep_frontier_if_due(Database& db, const Frontier& frontier);
Result<void> drop_frontiers(Database& db);

}  // namespace holdpin
