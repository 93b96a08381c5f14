// A release and its durable entry, against one bare SQLite insert of the same bytes, each in a
// transaction of its own, under the same pragmas, on the same disk:
//   read    the snapshot read from the records, the decision, the entry: all that a tap waits for
//   decide  the decision and the entry with what follows from it (Book::enter)
//   bare    the entry's body and leaf into a table without triggers, in a file of its own
// A log that still grows costs the disk more than one that is written over, so both logs are first
// brought past their first checkpoint. The files are made where temporary files go; TMPDIR names
// another disk. On one in memory, where a sync costs nothing, only the work itself is left to see.
#include <sqlite3.h>

#include "bench.hpp"
#include "support/temp_dir.hpp"
#include "flows/plates.hpp"
#include "flows/session.hpp"
#include "ledger/tree.hpp"

namespace holdpin::bench {
namespace {

constexpr std::int64_t kStart = 1795608300000;  // 2026-11-25T12:05:00Z, 06:05 on the example site
constexpr const char* kPlate = "SW-14";
constexpr const char* kBadge = "H-1042";

// SQLite writes its log back into the file at this many pages, and begins it anew.
constexpr std::uintmax_t kFullLog = 1000 * 4096;

// Asked for as src/store/open_database.cpp does.
constexpr const char* kBareFile = R"sql(
PRAGMA locking_mode = EXCLUSIVE;
PRAGMA journal_mode = WAL;
PRAGMA synchronous = FULL;
PRAGMA foreign_keys = ON;
PRAGMA recursive_triggers = ON;
PRAGMA cell_size_check = ON;
PRAGMA secure_delete = ON;
PRAGMA mmap_size = 0;
CREATE TABLE entry (n INTEGER PRIMARY KEY, body BLOB NOT NULL, leaf BLOB NOT NULL) STRICT;
INSERT INTO entry VALUES (0, zeroblob(8000000), zeroblob(32));
)sql";

class BareFile {
  public:
    explicit BareFile(const std::string& path) {
        demand(sqlite3_open(path.c_str(), &db_));
        demand(sqlite3_exec(db_, kBareFile, nullptr, nullptr, nullptr));
        demand(sqlite3_prepare_v2(db_, "INSERT INTO entry VALUES (?, ?, ?)", -1, &insert_,
                                  nullptr));
    }
    ~BareFile() {
        sqlite3_finalize(insert_);
        sqlite3_close(db_);
    }
    BareFile(const BareFile&) = delete;
    BareFile& operator=(const BareFile&) = delete;

    void insert(const std::string& body, const Hash& leaf) {
        demand(sqlite3_exec(db_, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr));
        demand(sqlite3_bind_int64(insert_, 1, ++rows_));
        demand(sqlite3_bind_blob64(insert_, 2, body.data(), body.size(), SQLITE_STATIC));
        demand(sqlite3_bind_blob64(insert_, 3, leaf.data(), leaf.size(), SQLITE_STATIC));
        demand(sqlite3_step(insert_));
        sqlite3_reset(insert_);
        demand(sqlite3_exec(db_, "COMMIT", nullptr, nullptr, nullptr));
    }

  private:
    void demand(int code) {
        if (code == SQLITE_OK || code == SQLITE_DONE) return;
        fmt::print(stderr, "the bench cannot run: {}\n", sqlite3_errmsg(db_));
        std::exit(1);
    }

    sqlite3* db_ = nullptr;
    sqlite3_stmt* insert_ = nullptr;
    std::int64_t rows_ = 0;
};

// An operator of the example site, in front of a machine that was walked and signed for.
class Shift {
  public:
    explicit Shift(const std::string& data) {
        make_example_site(data, clock_, random_);
        site_ = need(open_site(data, resolved({}), clock_, random_, PinCost::least));
        session_ = std::make_unique<Session>(site_->world());
        session_->open_person(*need(person_with_badge(*site_->db, kBadge)));
    }

    Snapshot snapshot() { return need(snapshot_of(*session_, kPlate)); }

    void walk_and_sign() {
        clock_.pass(60'000);
        const std::int64_t until = session_->work_shift()->end_ms;
        Fact fact;
        fact.kind = "round-signed";
        fact.by = {session_->person_id()};
        fact.content = snapshot().round_digest;
        fact.data = {{"machine", kPlate},      {"round", "scrubber-before-use"},
                     {"round_kind", "before"}, {"purpose", "before"},
                     {"takeover", false},      {"started_ms", clock_.now_ms()},
                     {"shift_end_ms", until},  {"findings", 0},
                     {"readings", nlohmann::json::array()}};
        need(site_->book->enter(fact));
    }
    Entry release(const Snapshot& snapshot) {
        const Decision decision = decide_release(snapshot);
        if (!std::holds_alternative<Release>(decision)) {
            fmt::print(stderr, "the bench cannot run: the machine is held\n");
            std::exit(1);
        }
        const Release& release = std::get<Release>(decision);
        Fact fact;
        fact.kind = "release-given";
        fact.by = {release.person};
        fact.data = {{"machine", kPlate},            {"person", release.person},
                     {"room", release.room},         {"until_ms", release.until_ms},
                     {"round", release.round_entry}, {"limits", release.limits},
                     {"rooms", release.rooms},       {"shifts", release.shifts}};
        return need(site_->book->enter(fact));
    }
    void give_back(const Entry& release) {
        Fact fact;
        fact.kind = "returned";
        fact.by = release.by;
        fact.data = {{"machine", kPlate}, {"release", release.n}, {"findings", 0},
                     {"closed_for_other", false}};
        need(site_->book->enter(fact));
    }

    // A whole shift after the other, until the log is written over.
    void fill_log(const std::string& log) {
        while (std::filesystem::file_size(log) < kFullLog) give_back(walked());
        give_back(walked());
    }

  private:
    Entry walked() {
        walk_and_sign();
        return release(snapshot());
    }

    HandClock clock_{kStart};
    SeededRandom random_{7};
    std::unique_ptr<OpenSite> site_;
    std::unique_ptr<Session> session_;
};

struct Ways {
    double read = 0;
    double decide = 0;
    double bare = 0;
};

Ways compare(Shift& shift, BareFile& bare, int turns) {
    Entry last;
    const auto release_ms = [&](bool read_too) {
        shift.walk_and_sign();
        const Snapshot ready = shift.snapshot();
        const double ms =
            took_ms([&] { last = shift.release(read_too ? shift.snapshot() : ready); });
        shift.give_back(last);
        return ms;
    };
    const std::vector<double> middle = medians(turns, {
        [&] { return release_ms(true); },
        [&] { return release_ms(false); },
        [&] {
            const std::string body = need(entry_body(last));
            const Hash leaf = leaf_hash(Bytes(body.begin(), body.end()));
            return took_ms([&] { bare.insert(body, leaf); });
        },
    });
    return {middle[0], middle[1], middle[2]};
}

void run() {
    constexpr int kTurns = 201;
    const TempDir temp;
    Shift shift(temp / "data");
    shift.fill_log(temp / "data/holdpin.db-wal");
    BareFile bare(temp / "bare.db");
    const Ways ways = compare(shift, bare, kTurns);
    fmt::print("entry: a release and its durable entry, median of {}, taking turns\n", kTurns);
    fmt::print("  in {}\n", std::filesystem::temp_directory_path().string());
    fmt::print("  bare insert             {:8.3f} ms\n", ways.bare);
    fmt::print("  decide and enter        {:8.3f} ms\n", ways.decide);
    fmt::print("  read, decide and enter  {:8.3f} ms\n", ways.read);
    fmt::print("  ratio {:.2f} (2 or less is wanted); with the reading {:.2f}\n",
               ways.decide / ways.bare, ways.read / ways.bare);
}

}  // namespace
}  // namespace holdpin::bench

int main() {
    holdpin::bench::run();
    return 0;
}
