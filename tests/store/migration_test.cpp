// Data files of every older version, kept as SQL, come out like a new one and keep their rows.
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

struct Fixture {
    int version;
    std::int64_t entries;
};
constexpr Fixture kFixtures[] = {{1, 3}, {2, 123}, {3, 123}, {4, 123}};

std::string make_fixture(const Scratch& scratch, int version) {
    const std::string name = "version-" + std::to_string(version);
    const auto sql =
        read_file(std::string(HOLDPIN_TEST_SOURCE_DIR) + "/tests/store/" + name + ".sql");
    REQUIRE(sql);
    meddle(scratch.path(name), sql.value());
    return scratch.path(name);
}

}  // namespace

TEST_CASE("there is a fixture of every version before the present one") {
    CHECK(static_cast<std::int64_t>(std::size(kFixtures)) == kSchemaVersion - 1);
}

TEST_CASE("a file of every older version becomes like a new file and keeps what is in it") {
    const Scratch scratch;
    const auto fresh = opened(scratch.path("new.db"));
    for (const Fixture& fixture : kFixtures) {
        CAPTURE(fixture.version);
        const std::string path = make_fixture(scratch, fixture.version);
        {
            const auto old = opened(path);
            CHECK(schema_of(*old) == schema_of(*fresh));
            CHECK(version_of(*old) == kSchemaVersion);
            CHECK(old->check());
            CHECK(fact(*old, "kept").value() == "yes");
            CHECK(find_draft(*old, "round/SW-14").value()->body == R"({"step":3})");
            const std::string rows = rows_of(*old);
            CHECK(std::count(rows.begin(), rows.end(), '\n') == fixture.entries);
            CHECK_FALSE(old->execute("DELETE FROM entry"));
        }
        // A second opening changes nothing more.
        const auto again = opened(path);
        CHECK(schema_of(*again) == schema_of(*fresh));
    }
}

TEST_CASE("before an older file is changed it is copied as it is") {
    const Scratch scratch;
    for (const Fixture& fixture : kFixtures) {
        CAPTURE(fixture.version);
        const std::string path = make_fixture(scratch, fixture.version);
        const std::string copy = path + ".version-" + std::to_string(fixture.version);
        CHECK_FALSE(std::filesystem::exists(copy));
        opened(path);
        REQUIRE(std::filesystem::exists(copy));
        sqlite3* db = nullptr;
        sqlite3_stmt* row = nullptr;
        REQUIRE(sqlite3_open(copy.c_str(), &db) == SQLITE_OK);
        const char* sql = "SELECT user_version, (SELECT count(*) FROM entry) FROM "
                          "pragma_user_version";
        REQUIRE(sqlite3_prepare_v2(db, sql, -1, &row, nullptr) == SQLITE_OK);
        REQUIRE(sqlite3_step(row) == SQLITE_ROW);
        CHECK(sqlite3_column_int(row, 0) == fixture.version);
        CHECK(sqlite3_column_int64(row, 1) == fixture.entries);
        sqlite3_finalize(row);
        sqlite3_close(db);
    }
}
