// What tests of the store and the ledger share: a folder that goes away with the test, and a
// connection that is not ours, to look at files and to damage them.
#pragma once

#include <doctest/doctest.h>
#include <sqlite3.h>

#include <memory>
#include <string>

#include "store/database.hpp"
#include "support/temp_dir.hpp"

namespace holdpin {

struct Scratch : TempDir {
    std::string path(const std::string& name) const { return *this / name; }
};

inline std::unique_ptr<Database> opened(const std::string& path) {
    auto db = Database::open(path, {});
    if (!db) FAIL(db.error().sentence());
    return std::move(db).value();
}

// Runs SQL on a file with the plain library, past everything that Database guards.
inline void meddle(const std::string& path, const std::string& sql) {
    sqlite3* db = nullptr;
    REQUIRE(sqlite3_open(path.c_str(), &db) == SQLITE_OK);
    char* message = nullptr;
    const int code = sqlite3_exec(db, sql.c_str(), nullptr, nullptr, &message);
    if (code != SQLITE_OK) FAIL(message);
    REQUIRE(sqlite3_close(db) == SQLITE_OK);
}

}  // namespace holdpin
