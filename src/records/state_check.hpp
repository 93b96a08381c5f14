// Whether the present state is what the entries say. All entries are folded again into temporary
// tables of the same connection, which go away afterwards, and each state table is held against
// its counterpart, row by row; memory stays flat. Nothing in the file is changed, so it may be one
// that is opened only to read. That the entries themselves hold is asked by ledger/check.hpp.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "store/database.hpp"

namespace holdpin {

// The state tables that are not what the entries say, in the order in which they are folded; none:
// all agree. Entries of which only the leaf is left say nothing. Must not be called inside a
// transaction. Errors: damaged (an entry that cannot be read or folded), full, failed.
Result<std::vector<std::string>> state_differences(Database& db);

// One sentence about those tables, without a full stop; empty where there are none.
std::string state_doubt(const std::vector<std::string>& tables);
inline constexpr const char* kPresentState = "present state";  // where it is wrong, in an Error
inline constexpr const char* kStateMend = "run: holdpin ledger rebuild";

// What was found stands until the state was folded again, also after a restart.
Result<void> note_state_doubt(Database& db, const std::string& what);
Result<std::string> noted_state_doubt(Database& db);  // empty: none

}  // namespace holdpin
