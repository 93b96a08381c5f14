// What SQLite's result codes mean for a person. Used inside store/ only.
#pragma once

#include "base/result.hpp"

struct sqlite3;

namespace holdpin {

// The error that `db` last met; `code` is what the failed call returned.
Error sqlite_error(sqlite3* db, int code);

}  // namespace holdpin
