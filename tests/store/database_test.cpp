#include "store/database.hpp"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <chrono>

#include "store/migrations.hpp"
#include "store/scratch.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

std::int64_t number(Database& db, std::string_view sql) {
    auto query = db.query(sql);
    const auto row = query.next();
    if (!row) FAIL(row.error().sentence());
    REQUIRE(row.value());
    return query.integer(0);
}

std::string word(Database& db, std::string_view sql) {
    auto query = db.query(sql);
    const auto row = query.next();
    if (!row) FAIL(row.error().sentence());
    REQUIRE(row.value());
    return query.text(0);
}

void add_note(Database& db, std::string_view name) {
    REQUIRE(db.query("INSERT INTO fact (name, value) VALUES (?, 'x')").bind(name).run());
}

std::int64_t notes(Database& db) { return number(db, "SELECT count(*) FROM fact"); }

constexpr auto kInsert = "INSERT INTO entry (n, body, leaf) VALUES (?, x'7b7d', zeroblob(32))";

Error entry_error(Database& db, const char* sql) {
    const auto outcome = db.query(sql).run();
    REQUIRE_FALSE(outcome);
    return outcome.error();
}

// What a power cut leaves when all that was synced is there and nothing was closed.
void copy_as_cut(const Scratch& scratch, const std::string& from, const std::string& to) {
    fs::copy_file(scratch.path(from), scratch.path(to));
    fs::copy_file(scratch.path(from + "-wal"), scratch.path(to + "-wal"));
}

}  // namespace

TEST_CASE("a new file has our mark, our version and settings that survive a power cut") {
    const Scratch scratch;
    const auto db = opened(scratch.path("a.db"));
    CHECK(number(*db, "PRAGMA application_id") == kApplicationId);
    CHECK(number(*db, "PRAGMA user_version") == kSchemaVersion);
    CHECK(word(*db, "PRAGMA journal_mode") == "wal");
    CHECK(word(*db, "PRAGMA locking_mode") == "exclusive");
    CHECK(number(*db, "PRAGMA synchronous") == 2);
    CHECK(number(*db, "PRAGMA foreign_keys") == 1);
    CHECK(number(*db, "PRAGMA recursive_triggers") == 1);
    CHECK(number(*db, "PRAGMA secure_delete") == 1);
    // No index file of the write-ahead log: it stands in memory, so nobody else can share it.
    CHECK_FALSE(fs::exists(scratch.path("a.db-shm")));
    struct stat status {};
    REQUIRE(stat(scratch.path("a.db").c_str(), &status) == 0);
    CHECK((status.st_mode & 0777) == 0600);
    CHECK(db->check());
}

TEST_CASE("an entry is not changed, taken away, replaced or put after a gap") {
    const auto db = opened(":memory:");
    for (std::int64_t n = 1; n <= 3; ++n) REQUIRE(db->query(kInsert).bind(n).run());

    CHECK(entry_error(*db, "UPDATE entry SET body = x'00' WHERE n = 2").kind == ErrorKind::refused);
    CHECK(entry_error(*db, "UPDATE entry SET n = 9 WHERE n = 3").kind == ErrorKind::refused);
    CHECK(entry_error(*db, "DELETE FROM entry WHERE n = 3").what.find("never taken away") !=
          std::string::npos);
    for (const char* sql : {"INSERT OR REPLACE INTO entry VALUES (2, x'00', zeroblob(32))",
                            "INSERT OR REPLACE INTO entry VALUES (3, x'00', zeroblob(32))",
                            "REPLACE INTO entry VALUES (1, x'00', zeroblob(32))",
                            "INSERT INTO entry VALUES (5, x'00', zeroblob(32))",
                            "INSERT INTO entry VALUES (0, x'00', zeroblob(32))",
                            "INSERT INTO entry VALUES (-1, x'00', zeroblob(32))",
                            "INSERT INTO entry VALUES (NULL, x'00', zeroblob(32))",
                            "INSERT INTO entry (body, leaf) VALUES (x'00', zeroblob(32))",
                            "INSERT OR IGNORE INTO entry VALUES (5, x'00', zeroblob(32))",
                            "INSERT INTO entry VALUES (3, x'00', zeroblob(32)) ON CONFLICT (n) "
                            "DO UPDATE SET body = excluded.body",
                            "INSERT INTO entry VALUES (4, x'00', zeroblob(31))",
                            "INSERT INTO entry VALUES (4, 'text', zeroblob(32))",
                            "INSERT INTO entry VALUES (4, NULL, zeroblob(32))"}) {
        CAPTURE(sql);
        CHECK(entry_error(*db, sql).kind == ErrorKind::refused);
    }
    CHECK(number(*db, "SELECT count(*) FROM entry WHERE body = x'7b7d'") == 3);
    CHECK(db->query(kInsert).bind(std::int64_t{4}).run());
}

TEST_CASE("the guards against replacing do not lean on the recursive_triggers setting") {
    const auto db = opened(":memory:");
    REQUIRE(db->query(kInsert).bind(std::int64_t{1}).run());
    REQUIRE(db->execute("PRAGMA recursive_triggers = OFF"));
    CHECK_FALSE(db->execute("REPLACE INTO entry VALUES (1, x'00', zeroblob(32))"));
    CHECK(number(*db, "SELECT count(*) FROM entry WHERE body = x'7b7d'") == 1);
}

TEST_CASE("a transaction that fails leaves nothing behind") {
    const auto db = opened(":memory:");
    const auto outcome = db->transaction([&]() -> Result<void> {
        CHECK(db->in_transaction());
        add_note(*db, "one");
        return Error{ErrorKind::invalid, "no", "", ""};
    });
    REQUIRE_FALSE(outcome);
    CHECK(outcome.error().what == "no");
    CHECK_FALSE(db->in_transaction());
    CHECK(notes(*db) == 0);

    REQUIRE(db->transaction([&]() -> Result<void> {
        add_note(*db, "two");
        return {};
    }));
    CHECK(notes(*db) == 1);
}

TEST_CASE("a transaction inside another belongs to it, and its failure cannot be swallowed") {
    const auto db = opened(":memory:");
    const auto inner_that_fails = [&]() -> Result<void> {
        add_note(*db, "inner");
        return Error{ErrorKind::invalid, "inner said no", "", ""};
    };
    const auto outcome = db->transaction([&]() -> Result<void> {
        add_note(*db, "outer");
        CHECK_FALSE(db->transaction(inner_that_fails));
        return {};
    });
    REQUIRE_FALSE(outcome);
    CHECK(outcome.error().what == "inner said no");
    CHECK(notes(*db) == 0);

    REQUIRE(db->transaction([&] {
        return db->transaction([&]() -> Result<void> {
            add_note(*db, "both");
            return {};
        });
    }));
    CHECK(notes(*db) == 1);
}

TEST_CASE("a transaction that was ended by its work is reported, not taken for kept") {
    const auto db = opened(":memory:");
    const auto outcome = db->transaction([&] { return db->execute("ROLLBACK"); });
    CHECK_FALSE(outcome);
    CHECK_FALSE(db->in_transaction());
}

TEST_CASE("a query that cannot be prepared or bound says so when it is run") {
    const auto db = opened(":memory:");
    auto broken = db->query("SELECT nothing FROM nowhere");
    broken.bind(std::int64_t{1}).bind("x").bind_null();
    const auto row = broken.next();
    REQUIRE_FALSE(row);
    CHECK(row.error().where == "SELECT nothing FROM nowhere");
    CHECK_FALSE(broken.run());
    CHECK(broken.integer(0) == 0);
    CHECK(broken.text(0).empty());

    CHECK_FALSE(db->query("SELECT 1; SELECT 2").run());
    CHECK_FALSE(db->query("").run());
    auto too_many = db->query("SELECT ?");
    too_many.bind("a").bind("b");
    CHECK_FALSE(too_many.next());
    // The mistake does not stick to the statement.
    CHECK(db->query("SELECT ?").bind("a").next());
}

TEST_CASE("the same statement can be run inside itself") {
    const auto db = opened(":memory:");
    for (const char* name : {"a", "b", "c"}) add_note(*db, name);
    constexpr auto kAll = "SELECT name FROM fact WHERE name >= ? ORDER BY name";
    std::string seen;
    auto outer = db->query(kAll);
    outer.bind("a");
    while (outer.next().value()) {
        seen += outer.text(0);
        auto inner = db->query(kAll);
        inner.bind(outer.text(0));
        while (inner.next().value()) seen += inner.text(0);
        seen += ' ';
    }
    CHECK(seen == "aabc bbc cc ");
    // After its end a query does not begin again.
    CHECK_FALSE(outer.next().value());
}

TEST_CASE("values come back as they were bound") {
    const auto db = opened(":memory:");
    const std::string text("a\0\xc3\xa9", 4);
    const Bytes blob{0, 255, 7};
    auto query = db->query("SELECT ?, ?, ?, ?, ?, ?, typeof(?4), typeof(?5)");
    query.bind(std::int64_t{INT64_MIN}).bind(text).bind(blob).bind(std::string_view());
    query.bind(std::span<const std::uint8_t>()).bind_null();
    REQUIRE(query.next().value());
    CHECK(query.integer(0) == INT64_MIN);
    CHECK(query.text(1) == text);
    CHECK(query.blob(2) == blob);
    CHECK(query.text(6) == "text");
    CHECK(query.text(7) == "blob");
    CHECK_FALSE(query.is_null(4));
    CHECK(query.is_null(5));
}

TEST_CASE("a file of another program is refused and left as it was") {
    const Scratch scratch;
    meddle(scratch.path("marked.db"), "PRAGMA application_id = 77; CREATE TABLE t (x)");
    meddle(scratch.path("plain.db"), "CREATE TABLE t (x)");
    meddle(scratch.path("version.db"), "PRAGMA user_version = 1");
    for (const char* name : {"marked.db", "plain.db", "version.db"}) {
        CAPTURE(name);
        const std::string before = read_file(scratch.path(name)).value();
        const auto db = Database::open(scratch.path(name), {});
        REQUIRE_FALSE(db);
        CHECK(db.error().kind == ErrorKind::refused);
        CHECK(db.error().what == "this file belongs to another program");
        CHECK(db.error().where == scratch.path(name));
        CHECK(read_file(scratch.path(name)).value() == before);
    }
}

TEST_CASE("the write-ahead log of another program is not written back into its file") {
    const Scratch scratch;
    sqlite3* other = nullptr;
    REQUIRE(sqlite3_open(scratch.path("b.db").c_str(), &other) == SQLITE_OK);
    REQUIRE(sqlite3_exec(other, "PRAGMA journal_mode = WAL; CREATE TABLE t (x)", nullptr, nullptr,
                         nullptr) == SQLITE_OK);
    copy_as_cut(scratch, "b.db", "cut");
    REQUIRE(sqlite3_close(other) == SQLITE_OK);
    const std::string before = read_file(scratch.path("cut")).value();
    const std::string log = read_file(scratch.path("cut-wal")).value();
    CHECK(Database::open(scratch.path("cut"), {}).error().kind == ErrorKind::refused);
    CHECK(read_file(scratch.path("cut")).value() == before);
    CHECK(read_file(scratch.path("cut-wal")).value() == log);
}

TEST_CASE("a file that is no database is refused") {
    const Scratch scratch;
    REQUIRE(write_file(scratch.path("a.db"), std::string(5000, 'x')));
    const auto db = Database::open(scratch.path("a.db"), {});
    REQUIRE_FALSE(db);
    CHECK(db.error().kind == ErrorKind::damaged);
    const auto nowhere = Database::open(scratch.path("no/such/a.db"), {});
    CHECK_FALSE(nowhere);
}

TEST_CASE("a file of a newer version is refused") {
    const Scratch scratch;
    opened(scratch.path("a.db"));
    const std::string newer = std::to_string(kSchemaVersion + 1);
    meddle(scratch.path("a.db"), "PRAGMA user_version = " + newer);
    const auto db = Database::open(scratch.path("a.db"), {});
    REQUIRE_FALSE(db);
    CHECK(db.error().kind == ErrorKind::refused);
    CHECK(db.error().what.find("newer version") != std::string::npos);
}

TEST_CASE("a file that is open is refused to a second one, which waits no longer than 3 s") {
    const Scratch scratch;
    const auto db = opened(scratch.path("a.db"));
    const auto begun = std::chrono::steady_clock::now();
    const auto second = Database::open(scratch.path("a.db"), {});
    REQUIRE_FALSE(second);
    CHECK(second.error().kind == ErrorKind::refused);
    CHECK(second.error().what.find("running kiosk") != std::string::npos);
    CHECK(std::chrono::steady_clock::now() - begun < std::chrono::seconds(3));
    add_note(*db, "still works");
}

TEST_CASE("what was kept before a power cut is there after it, what was not is gone") {
    const Scratch scratch;
    const auto db = opened(scratch.path("a.db"));
    REQUIRE(db->checkpoint());
    for (int i = 0; i < 20; ++i) {
        add_note(*db, std::to_string(i));
        const std::string cut = "cut" + std::to_string(i);
        copy_as_cut(scratch, "a.db", cut);
        CHECK(notes(*opened(scratch.path(cut))) == i + 1);
    }
    REQUIRE_FALSE(db->transaction([&]() -> Result<void> {
        add_note(*db, "unfinished");
        copy_as_cut(scratch, "a.db", "middle");
        return Error{};
    }));
    CHECK(notes(*opened(scratch.path("middle"))) == 20);
}

TEST_CASE("a write-ahead log cut off at any place loses the last writes only") {
    const Scratch scratch;
    const auto db = opened(scratch.path("a.db"));
    REQUIRE(db->checkpoint());
    for (int i = 0; i < 5; ++i) add_note(*db, std::to_string(i));
    const std::string log = read_file(scratch.path("a.db-wal")).value();
    std::int64_t before = 0;
    for (std::size_t size = 0; size <= log.size(); size += 1021) {
        CAPTURE(size);
        fs::copy_file(scratch.path("a.db"), scratch.path("cut"));
        REQUIRE(write_file(scratch.path("cut-wal"), log.substr(0, size)));
        const std::int64_t now = notes(*opened(scratch.path("cut")));
        CHECK(now >= before);
        before = now;
        fs::remove(scratch.path("cut"));
    }
    CHECK(before >= 4);
}

TEST_CASE("after an unclean stop a damaged page is found at opening") {
    const Scratch scratch;
    const auto db = opened(scratch.path("a.db"));
    for (int i = 0; i < 200; ++i) add_note(*db, "a note of some length " + std::to_string(i));
    REQUIRE(db->checkpoint());
    add_note(*db, "last");
    copy_as_cut(scratch, "a.db", "cut");
    std::string bytes = read_file(scratch.path("cut")).value();
    for (std::size_t at = 8 * 4096; at < bytes.size(); ++at) bytes[at] = '\x55';
    REQUIRE(write_file(scratch.path("cut"), bytes));
    const auto reopened = Database::open(scratch.path("cut"), {});
    REQUIRE_FALSE(reopened);
    CHECK(reopened.error().kind == ErrorKind::damaged);
}

TEST_CASE("a copy is complete, is read without being touched, and replaces nothing") {
    const Scratch scratch;
    const std::string copy = scratch.path("copy #1 50%.db");
    const auto db = opened(scratch.path("a.db"));
    add_note(*db, "kept");
    REQUIRE(db->copy_to(copy));
    CHECK_FALSE(fs::exists(copy + ".part"));
    CHECK(db->copy_to(copy).error().kind == ErrorKind::refused);

    const std::string before = read_file(copy).value();
    {
        const auto reader = Database::open(copy, {.vfs = "", .read_only = true});
        REQUIRE(reader);
        CHECK(notes(*reader.value()) == 1);
        const auto write = reader.value()->query("DELETE FROM fact").run();
        REQUIRE_FALSE(write);
        CHECK(write.error().kind == ErrorKind::read_only);
    }
    CHECK(read_file(copy).value() == before);
    CHECK(std::distance(fs::directory_iterator(fs::path(copy).parent_path()), {}) == 3);
}

TEST_CASE("a live file is not read as if it were a copy") {
    const Scratch scratch;
    const auto db = opened(scratch.path("a.db"));
    add_note(*db, "in the log only");
    const auto reader = Database::open(scratch.path("a.db"), {.vfs = "", .read_only = true});
    REQUIRE_FALSE(reader);
    CHECK(reader.error().kind == ErrorKind::refused);
}

TEST_CASE("a link to the data file is followed") {
    const Scratch scratch;
    add_note(*opened(scratch.path("a.db")), "kept");
    fs::create_symlink(scratch.path("a.db"), scratch.path("link.db"));
    CHECK(notes(*opened(scratch.path("link.db"))) == 1);
}
