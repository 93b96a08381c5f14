// Whether a finished copy is a ledger that holds: SQLite's own check of the file, then the full
// check of entries and seals. Opens the file by itself and only to read, so a worker may do it
// while the data are in use.
#pragma once

#include <string>

#include "ledger/check.hpp"

namespace holdpin {

// Errors: as of Database::open and Database::check. A fault of the ledger is in the report.
Result<FullReport> check_copy(const std::string& path, const Evidence& evidence);

}  // namespace holdpin
