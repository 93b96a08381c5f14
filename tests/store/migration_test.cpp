// Data files of every released version, kept as SQL, come out like a new one and keep their rows.
#include "store/migrations.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "store/scratch.hpp"
#include "store/tables.hpp"

using namespace holdpin;

namespace {

// Every table, index and trigger with its text.
std::string schema_of(Database& db) {
    auto query = db.query("SELECT type || ' ' || name || ' ' || coalesce(sql, '') "
                          "FROM sqlite_schema ORDER BY name");
    std::string all;
    for (auto more = query.next(); more && more.value(); more = query.next()) {
        all += query.text(0) + "\n";
    }
    return all;
}

std::string rows_of(Database& db) {
    auto query = db.query("SELECT n || hex(body) || hex(leaf) FROM entry ORDER BY n");
    std::string all;
    for (auto more = query.next(); more && more.value(); more = query.next()) {
        all += query.text(0) + "\n";
    }
    return all;
}

std::int64_t version_of(Database& db) {
    auto query = db.query("PRAGMA user_version");
    REQUIRE(query.next());
    return query.integer(0);
}

}  // namespace

TEST_CASE("a file of version 1 becomes like a new file and keeps what is in it") {
    const Scratch scratch;
    const auto sql =
        read_file(std::string(HOLDPIN_TEST_SOURCE_DIR) + "/tests/store/version-1.sql");
    REQUIRE(sql);
    meddle(scratch.path("old.db"), sql.value());
    const auto fresh = opened(scratch.path("new.db"));
    {
        const auto old = opened(scratch.path("old.db"));
        CHECK(schema_of(*old) == schema_of(*fresh));
        CHECK(version_of(*old) == kSchemaVersion);
        CHECK(old->check());
        CHECK(fact(*old, "kept").value() == "yes");
        CHECK(find_draft(*old, "round/SW-14").value()->body == R"({"step":3})");
        const std::string rows = rows_of(*old);
        CHECK(std::count(rows.begin(), rows.end(), '\n') == 3);
        CHECK_FALSE(old->execute("DELETE FROM entry"));
    }
    // A second opening changes nothing more.
    const auto again = opened(scratch.path("old.db"));
    CHECK(schema_of(*again) == schema_of(*fresh));
}
