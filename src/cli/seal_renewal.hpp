// Where the seal kept outside is gone or is none of ours, nothing but the paper book shows whether
// the data are old. When a code from it was found, the newest seal is put outside again. A file
// that stands there is moved aside, never written over.
#pragma once

#include <cstdint>
#include <string>

#include "ledger/ledger.hpp"
#include "store/database.hpp"

namespace holdpin {

// What was done, as a sentence. Errors: absent (there is no seal), failed.
Result<std::string> renew_seal_outside(Database& db, const std::string& path, std::int64_t now_ms);

}  // namespace holdpin
