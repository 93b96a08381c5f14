#include "ledger/ledger.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "ledger/sealed_ledger.hpp"
#include "store/scratch.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

constexpr std::int64_t kNow = 1'795'606'812'345;  // 2026-11-25T11:40:12.345Z

// A ledger with all that it asks for, on a file or in memory.
struct Kiosk {
    explicit Kiosk(const std::string& path) : db(opened(path)) { open(); }
    void open() {
        auto result = Ledger::open(*db, clock, random,
                                   {"example", "dock", Zone::load("America/Chicago").value()});
        if (!result) FAIL(result.error().sentence());
        ledger = std::move(result).value();
    }
    Entry add(std::string kind, std::int64_t about = 0) {
        Fact fact;
        fact.kind = std::move(kind);
        fact.by = {"p-a"};
        fact.about = about;
        fact.data = {{"point", static_cast<std::int64_t>(ledger->size())}};
        const auto entry = ledger->append(fact);
        if (!entry) FAIL(entry.error().sentence());
        return entry.value();
    }
    void fill(int count) {
        for (int i = 0; i < count; ++i) {
            clock.pass(1000);
            add("thing-done");
        }
    }

    std::unique_ptr<Database> db;
    HandClock clock{kNow};
    SeededRandom random{11};
    std::unique_ptr<Ledger> ledger;
};

// The same rows without the triggers that guard them.
const std::string kUnguard =
    "DROP TRIGGER entry_stays; DROP TRIGGER entry_remains; DROP TRIGGER entry_continues;";

LedgerReport report_of(Database& db) {
    const auto report = check_entries(db);
    if (!report) FAIL(report.error().sentence());
    return report.value();
}

Error append_error(Ledger& ledger, nlohmann::json data) {
    Fact fact;
    fact.kind = "thing-done";
    fact.data = std::move(data);
    const auto entry = ledger.append(fact);
    REQUIRE_FALSE(entry);
    return entry.error();
}

}  // namespace

TEST_CASE("an entry has number, times, place and salt, and is read back as it was") {
    Kiosk kiosk(":memory:");
    CHECK(kiosk.ledger->size() == 0);
    const Entry first = kiosk.add("round-signed");
    CHECK(first.n == 1);
    CHECK(first.at_ms == kNow);
    CHECK(first.offset_min == -360);
    CHECK(first.zone == "America/Chicago");
    CHECK(first.boot == "hand-0");
    CHECK(first.site == "example");
    CHECK(first.kiosk == "dock");
    CHECK(first.salt.size() == 32);
    const Entry second = kiosk.add("round-corrected", 1);
    CHECK(second.about == 1);
    CHECK(second.salt != first.salt);
    const auto again = kiosk.ledger->at(1);
    REQUIRE(again);
    CHECK(entry_body(again.value()).value() == entry_body(first).value());
    CHECK(kiosk.ledger->at(3).error().kind == ErrorKind::absent);
    CHECK(kiosk.ledger->at(0).error().kind == ErrorKind::absent);
}

TEST_CASE("what is no fact is refused and leaves the ledger as it was") {
    Kiosk kiosk(":memory:");
    kiosk.add("round-signed");
    const Hash root = kiosk.ledger->root();
    CHECK(append_error(*kiosk.ledger, {{"ppm", 0.5}}).kind == ErrorKind::invalid);
    CHECK(append_error(*kiosk.ledger, {{"far", std::int64_t{1} << 53}}).kind == ErrorKind::invalid);
    CHECK(append_error(*kiosk.ledger, {{"text", "\xff"}}).kind == ErrorKind::invalid);
    CHECK(append_error(*kiosk.ledger, nlohmann::json::array()).kind == ErrorKind::invalid);
    CHECK_FALSE(kiosk.ledger->append({}));
    for (const std::int64_t about : {-1, 2, 3}) {
        Fact fact;
        fact.kind = "round-corrected";
        fact.about = about;
        CHECK(kiosk.ledger->append(fact).error().kind == ErrorKind::invalid);
    }
    CHECK(kiosk.ledger->size() == 1);
    CHECK(kiosk.ledger->root() == root);
    CHECK(kiosk.add("round-signed").n == 2);
}

TEST_CASE("the root in memory is that of the stored leaves, and proofs of entries hold") {
    Kiosk kiosk(":memory:");
    for (std::size_t size = 0; size <= 70; ++size) {
        const auto leaves = kiosk.ledger->leaves();
        REQUIRE(leaves);
        CHECK(leaves.value().size() == size);
        CHECK(root_of(leaves.value()) == kiosk.ledger->root());
        kiosk.add("thing-done");
    }
    const auto leaves = kiosk.ledger->leaves().value();
    for (std::uint64_t index = 0; index < leaves.size(); ++index) {
        const std::string body =
            entry_body(kiosk.ledger->at(static_cast<std::int64_t>(index) + 1).value()).value();
        CHECK(inclusion_holds(leaf_hash(Bytes(body.begin(), body.end())), index, leaves.size(),
                              inclusion_proof(leaves, index), kiosk.ledger->root()));
    }
}

TEST_CASE("entries are visited in order, and the first error ends it") {
    Kiosk kiosk(":memory:");
    kiosk.fill(10);
    std::vector<std::int64_t> seen;
    REQUIRE(kiosk.ledger->each(3, 5, [&](const Entry& entry) -> Result<void> {
        seen.push_back(entry.n);
        // A visitor may use the ledger itself.
        CHECK(kiosk.ledger->at(entry.n));
        return kiosk.ledger->each(1, 1, [](const Entry&) { return Result<void>(); });
    }));
    CHECK(seen == std::vector<std::int64_t>{3, 4, 5});
    int visits = 0;
    CHECK_FALSE(kiosk.ledger->each(1, 10, [&](const Entry&) -> Result<void> {
        ++visits;
        return Error{};
    }));
    CHECK(visits == 1);
    CHECK(kiosk.ledger->each(11, 20, [](const Entry&) -> Result<void> { return Error{}; }));
}

TEST_CASE("an append inside a transaction counts with it") {
    Kiosk kiosk(":memory:");
    kiosk.fill(3);
    const Hash root = kiosk.ledger->root();
    REQUIRE_FALSE(kiosk.db->transaction([&]() -> Result<void> {
        kiosk.add("thing-done");
        kiosk.add("thing-done");
        return Error{};
    }));
    // Forgetting to reload is noticed at the next append, not written.
    CHECK_FALSE(kiosk.ledger->append({.kind = "thing-done", .by = {}, .content = ""}));
    REQUIRE(kiosk.ledger->reload());
    CHECK(kiosk.ledger->size() == 3);
    CHECK(kiosk.ledger->root() == root);
    REQUIRE(kiosk.db->transaction([&]() -> Result<void> {
        kiosk.add("thing-done");
        return {};
    }));
    CHECK(kiosk.ledger->size() == 4);
    CHECK(kiosk.ledger->check().value().fault == LedgerFault::none);
}

TEST_CASE("after a power cut at any entry the ledger opens with exactly what was acknowledged") {
    const Scratch scratch;
    Kiosk kiosk(scratch.path("a.db"));
    for (int i = 1; i <= 25; ++i) {
        kiosk.add("thing-done");
        const std::string cut = scratch.path("cut" + std::to_string(i));
        fs::copy_file(scratch.path("a.db"), cut);
        fs::copy_file(scratch.path("a.db-wal"), cut + "-wal");
        Kiosk reopened(cut);
        CHECK(reopened.ledger->size() == static_cast<std::uint64_t>(i));
        CHECK(reopened.ledger->root() == kiosk.ledger->root());
        CHECK(reopened.ledger->check().value().fault == LedgerFault::none);
        CHECK(reopened.add("thing-done").n == i + 1);
    }
}

TEST_CASE("a whole ledger is reported without a fault, with its size and root") {
    Kiosk kiosk(":memory:");
    CHECK(report_of(*kiosk.db).size == 0);
    kiosk.fill(100);
    const LedgerReport report = kiosk.ledger->check().value();
    CHECK(report.fault == LedgerFault::none);
    CHECK(report.first_bad == 0);
    CHECK(report.size == 100);
    CHECK(report.root == kiosk.ledger->root());
    CHECK(report.clock_jumps.empty());
}

TEST_CASE("every byte of a body that is changed is found, and the entry is named") {
    Kiosk kiosk(":memory:");
    kiosk.fill(5);
    REQUIRE(kiosk.db->execute(kUnguard.c_str()));
    const std::string text = entry_body(kiosk.ledger->at(3).value()).value();
    const Bytes body(text.begin(), text.end());
    for (std::size_t i = 0; i < body.size(); ++i) {
        Bytes altered = body;
        altered[i] ^= static_cast<std::uint8_t>(1U << (i % 8));
        REQUIRE(kiosk.db->query("UPDATE entry SET body = ? WHERE n = 3").bind(altered).run());
        const LedgerReport report = report_of(*kiosk.db);
        CHECK(report.fault == LedgerFault::altered_body);
        CHECK(report.first_bad == 3);
        CHECK(report.size == 2);
        CHECK(report.what == "entry 3 is not what was written");
        CHECK(kiosk.ledger->at(3).error().kind == ErrorKind::damaged);
    }
    REQUIRE(kiosk.db->query("UPDATE entry SET body = ? WHERE n = 3").bind(body).run());
    CHECK(report_of(*kiosk.db).fault == LedgerFault::none);
}

TEST_CASE("a changed leaf, a gap, exchanged rows and a foreign body are found and named") {
    struct Damage {
        const char* sql;
        LedgerFault fault;
        std::int64_t first_bad;
    };
    const std::string junk_leaf = hex(leaf_hash(Bytes{'{', '}'}));
    const std::string junk =
        "UPDATE entry SET body = x'7b7d', leaf = x'" + junk_leaf + "' WHERE n = 4";
    const Damage damages[] = {
        {"UPDATE entry SET leaf = zeroblob(32) WHERE n = 2", LedgerFault::altered_body, 2},
        {"DELETE FROM entry WHERE n = 3", LedgerFault::gap, 3},
        {"DELETE FROM entry WHERE n = 1", LedgerFault::gap, 1},
        {"UPDATE entry SET n = -n WHERE n IN (2, 4); UPDATE entry SET n = 6 + n WHERE n < 0",
         LedgerFault::reordered, 2},
        {junk.c_str(), LedgerFault::undecodable, 4},
    };
    for (const auto& damage : damages) {
        CAPTURE(damage.sql);
        Kiosk kiosk(":memory:");
        kiosk.fill(6);
        REQUIRE(kiosk.db->execute("PRAGMA ignore_check_constraints = ON"));
        REQUIRE(kiosk.db->execute((kUnguard + damage.sql).c_str()));
        const LedgerReport report = report_of(*kiosk.db);
        CHECK(report.fault == damage.fault);
        CHECK(report.first_bad == damage.first_bad);
        CHECK(report.size == static_cast<std::uint64_t>(damage.first_bad - 1));
        // A start sees it as well, since it looks at the last 64.
        const auto again =
            Ledger::open(*kiosk.db, kiosk.clock, kiosk.random, kiosk.ledger->place());
        REQUIRE_FALSE(again);
        CHECK(again.error().kind == ErrorKind::damaged);
    }
}

TEST_CASE("entries cut off or rewritten behind the ledger's back do not have its root") {
    Kiosk kiosk(":memory:");
    kiosk.fill(6);
    REQUIRE(kiosk.db->execute(kUnguard.c_str()));
    REQUIRE(kiosk.db->execute("DELETE FROM entry WHERE n = 6"));
    CHECK(report_of(*kiosk.db).fault == LedgerFault::none);
    const LedgerReport report = kiosk.ledger->check().value();
    CHECK(report.fault == LedgerFault::altered_leaf);
    CHECK(report.size == 5);
}

TEST_CASE("a start looks at the last 64 entries, a check at all of them") {
    Kiosk kiosk(":memory:");
    kiosk.fill(70);
    REQUIRE(kiosk.db->execute(kUnguard.c_str()));
    REQUIRE(kiosk.db->execute("UPDATE entry SET body = x'7b7d' WHERE n = 6"));
    kiosk.open();
    CHECK(kiosk.ledger->check().value().first_bad == 6);
    REQUIRE(kiosk.db->execute("UPDATE entry SET body = x'7b7d' WHERE n = 7"));
    const auto again = Ledger::open(*kiosk.db, kiosk.clock, kiosk.random, kiosk.ledger->place());
    CHECK_FALSE(again);
}

TEST_CASE("a wall clock that goes back within a boot is noted, after a new start it is not") {
    Kiosk kiosk(":memory:");
    kiosk.fill(2);
    kiosk.clock.set_wall(kNow - 60'000);
    kiosk.add("thing-done");
    kiosk.fill(1);
    kiosk.clock.reboot();
    kiosk.clock.set_wall(kNow - 120'000);
    kiosk.add("thing-done");
    const LedgerReport report = kiosk.ledger->check().value();
    CHECK(report.fault == LedgerFault::none);
    CHECK(report.clock_jumps == std::vector<std::int64_t>{3});
}

TEST_CASE("a start reads the end of a ledger, and not what stands before it") {
    const Scratch scratch;
    SealedLedger kiosk(scratch.path("a.db"));
    kiosk.fill_and_seal(300);
    const Hash root = kiosk.ledger->root();
    // Nobody but the full check sees that the fifth entry is gone.
    kiosk.meddle_with("DELETE FROM entry WHERE n = 5");
    REQUIRE(kiosk.ledger->reload());
    CHECK(kiosk.ledger->root() == root);
    CHECK(kiosk.doubt().empty());
    CHECK(kiosk.check().ledger.first_bad == 5);
}

TEST_CASE("a frontier that is missing or damaged is made again from the leaves") {
    const Scratch scratch;
    SealedLedger kiosk(scratch.path("a.db"));
    kiosk.fill_and_seal(300);
    const Hash root = kiosk.ledger->root();
    const Hash half = kiosk.ledger->root_at(150).value();
    const std::vector<Hash> leaves = kiosk.ledger->leaves().value();
    CHECK(half == root_of(std::span(leaves).first(150)));
    for (const char* harm : {"DELETE FROM frontier", "DELETE FROM frontier WHERE size > 64",
                             "UPDATE frontier SET peaks = zeroblob(length(peaks))",
                             "UPDATE frontier SET peaks = x'00'"}) {
        CAPTURE(harm);
        REQUIRE(kiosk.db->execute(harm));
        REQUIRE(kiosk.ledger->reload());
        CHECK(kiosk.ledger->root() == kiosk.ledger->root_at(kiosk.ledger->size()).value());
        CHECK(kiosk.ledger->root_at(300).value() == root);
        CHECK(kiosk.ledger->root_at(150).value() == half);
        CHECK(kiosk.doubt().empty());
        kiosk.fill_and_seal(1);
        CHECK(kiosk.check().ledger.fault == LedgerFault::none);
        REQUIRE(kiosk.ledger->reload());
        CHECK(kiosk.check().seals == kiosk.check().signatures);
    }
}
