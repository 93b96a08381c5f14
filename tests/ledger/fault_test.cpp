// A disk that fails at every place where it can: what was acknowledged stays, what was not is
// said to have failed, and the ledger holds when the disk is whole again.
#include <doctest/doctest.h>

#include "ledger/ledger.hpp"
#include "store/failing_disk.hpp"
#include "store/scratch.hpp"
#include "store/tables.hpp"

using namespace holdpin;

namespace {

constexpr int kPlacesMax = 2000;

struct Outcome {
    std::int64_t acknowledged = 0;
    bool said_failed = false;
    ErrorKind kind = ErrorKind::invalid;

    template <typename T>
    bool note(const Result<T>& result) {
        if (result) return true;
        said_failed = true;
        kind = result.error().kind;
        return false;
    }
};

Ledger::Place place() { return {"example", "dock", Zone::load("America/Chicago").value()}; }

// A short day: opens the file, writes entries alone and in pairs, empties the log, closes.
Outcome work(const std::string& path) {
    Outcome outcome;
    HandClock clock(1'795'606'812'345);
    SeededRandom random(5);
    auto db = Database::open(path, {.vfs = FailingDisk::name(), .read_only = false});
    if (!outcome.note(db)) return outcome;
    Database& store = *db.value();
    auto ledger = Ledger::open(store, clock, random, place());
    if (!outcome.note(ledger)) return outcome;
    const Fact fact{"thing-done", {}, "", 0, {{"text", std::string(600, 'x')}}};
    for (int i = 0; i < 6; ++i) {
        if (!outcome.note(ledger.value()->append(fact))) return outcome;
        ++outcome.acknowledged;
        const auto both = store.transaction([&]() -> Result<void> {
            TRY(ledger.value()->append(fact));
            TRY(set_fact(store, "pairs", std::to_string(i + 1)));
            TRY(ledger.value()->append(fact));
            return {};
        });
        if (!outcome.note(both)) return outcome;
        outcome.acknowledged += 2;
        if (i % 3 == 2 && !outcome.note(store.checkpoint())) return outcome;
    }
    return outcome;
}

// The file with the disk whole again: nothing acknowledged is missing, nothing is torn.
void inspect(const std::string& path, const Outcome& outcome) {
    HandClock clock(1'795'606'812'345);
    SeededRandom random(6);
    const auto db = opened(path);
    auto ledger = Ledger::open(*db, clock, random, place());
    REQUIRE(ledger);
    const LedgerReport report = ledger.value()->check().value();
    CHECK(report.fault == LedgerFault::none);
    const auto size = static_cast<std::int64_t>(report.size);
    CHECK(size >= outcome.acknowledged);
    CHECK(size <= outcome.acknowledged + 2);
    CHECK(size % 3 != 2);  // a pair is there as a whole or not at all
    CHECK(fact(*db, "pairs").value().value_or("0") == std::to_string(size / 3));
    CHECK(ledger.value()->append({"thing-done", {}, "", 0, nlohmann::json::object()}));
}

void fail_everywhere(int code, ErrorKind wanted) {
    const Scratch scratch;
    FailingDisk disk;
    int place = 1;
    for (; place < kPlacesMax; ++place) {
        CAPTURE(place);
        const std::string path = scratch.path("a" + std::to_string(place) + ".db");
        disk.fail_from(place, code);
        const Outcome outcome = work(path);
        const bool failed = disk.has_failed();
        disk.mend();
        if (outcome.said_failed) CHECK(outcome.kind == wanted);
        // Only the last write-back, at closing, may fail unsaid: all of it is in the log.
        if (failed && !outcome.said_failed) CHECK(outcome.acknowledged == 18);
        inspect(path, outcome);
        std::filesystem::remove(path);
        if (!failed) break;
    }
    CHECK(place > 50);
    CHECK(place < kPlacesMax);
}

}  // namespace

TEST_CASE("a disk that becomes full at any write loses nothing that was acknowledged") {
    fail_everywhere(SQLITE_FULL, ErrorKind::full);
}

TEST_CASE("a disk that stops writing at any call loses nothing that was acknowledged") {
    fail_everywhere(SQLITE_IOERR_WRITE, ErrorKind::failed);
}

TEST_CASE("a ledger goes on after the disk was full for a while") {
    const Scratch scratch;
    FailingDisk disk;
    HandClock clock(1'795'606'812'345);
    SeededRandom random(5);
    const auto db =
        Database::open(scratch.path("a.db"), {.vfs = FailingDisk::name(), .read_only = false});
    REQUIRE(db);
    const auto ledger = Ledger::open(*db.value(), clock, random, place());
    REQUIRE(ledger);
    const Fact fact{"thing-done", {}, "", 0, nlohmann::json::object()};
    REQUIRE(ledger.value()->append(fact));
    const Hash root = ledger.value()->root();
    disk.fail_from(1, SQLITE_FULL);
    CHECK(ledger.value()->append(fact).error().kind == ErrorKind::full);
    CHECK(ledger.value()->append(fact).error().kind == ErrorKind::full);
    CHECK(ledger.value()->root() == root);
    disk.mend();
    CHECK(ledger.value()->append(fact).value().n == 2);
    CHECK(ledger.value()->check().value().fault == LedgerFault::none);
}
