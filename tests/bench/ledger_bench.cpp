// A ledger of ten years against its own bytes and against an empty one; all ratios from one run:
//   check     the full check of a copy, against a bare scan of the table plus hashing as many leaf
//             and node bytes from memory with the same library: those of the one tree over all, and
//             besides those that the root under each seal takes
//   CSV       the tables of the binder, against the sqlite3 shell: ledger_export.hpp
//   start     all of a start but the window: content read, key, records opened, the newest seal and
//             the end of the ledger looked at; besides, what is the records' own part of it
//   decision  the snapshot of a machine read from the records, and the release decided
// The most memory of check and CSV is that of processes of their own, for a tenth and for all; they
// come first, since a process begins with the peak of the one that starts it.
// Words: the number of uses (300000), and a folder to keep the data in and find them again.
#include <sodium.h>

#include <bit>

#include "child.hpp"
#include "flows/plates.hpp"
#include "flows/session.hpp"
#include "ledger/check.hpp"
#include "ledger_export.hpp"
#include "records/damaged_texts.hpp"
#include "records/state_check.hpp"
#include "support/temp_dir.hpp"
#include "ten_years.hpp"

namespace holdpin::bench {
namespace {

constexpr std::int64_t kStart = 1480000000000;  // ten years before
constexpr std::int64_t kNow = 1795608300000;    // 2026-11-25T12:05:00Z
constexpr int kMostUsesBound = 60'000;
constexpr const char* kPlate = "SW-14";
constexpr const char* kBadge = "H-1042";

std::unique_ptr<OpenSite> open(const std::string& data, Clock& clock, Random& random) {
    return need(open_site(data, resolved({}), clock, random, PinCost::least));
}

int make(const std::string& data, int uses) {
    HandClock clock(kStart);
    SeededRandom random(7);
    make_example_site(data, clock, random);
    if (uses == 0) return 0;
    const auto site = open(data, clock, random);
    TenYears(*site, clock, 2026).make(uses);
    return 0;
}

FullReport check(const std::string& data) {
    const Bytes key = need(load_kiosk_key(data + "/kiosk.key")).public_key;
    const auto db = need(Database::open(data + "/holdpin.db", {.vfs = "", .read_only = true}));
    FullReport report = need(check_ledger(*db, {key, {}, {}}));
    if (report.ledger.fault == LedgerFault::none) return report;
    fmt::print(stderr, "the bench cannot run: {}\n", report.ledger.what);
    std::exit(1);
}

// Every row of the table, touched; then as many bytes hashed from memory, in the same portions.
struct Bare {
    double scan_ms = 0;
    double hash_ms = 0;
    double seals_ms = 0;  // the nodes between the peaks under each seal
};

constexpr std::size_t kNodeSize = 65;

Bare bare(const std::string& path) {
    std::vector<std::size_t> sizes;
    int nodes_under_seals = 0;
    Bare bare;
    const auto db = need(Database::open(path, {.vfs = "", .read_only = true}));
    bare.scan_ms = took_ms([&] {
        auto query = db->query("SELECT n, body, leaf FROM entry ORDER BY n");
        while (need(query.next())) {
            sizes.push_back(query.blob_view(1).size() + query.blob_view(2).size() - 32 + 1);
        }
    });
    auto seals = db->query("SELECT size FROM seal");
    while (need(seals.next())) {
        nodes_under_seals += std::popcount(static_cast<std::uint64_t>(seals.integer(0))) - 1;
    }
    const Bytes memory(std::max(*std::max_element(sizes.begin(), sizes.end()), kNodeSize), 0x5a);
    Hash hash{};
    bare.hash_ms = took_ms([&] {
        for (const std::size_t size : sizes) {
            crypto_hash_sha256(hash.data(), memory.data(), size);
            crypto_hash_sha256(hash.data(), memory.data(), kNodeSize);
        }
    });
    bare.seals_ms = took_ms([&] {
        for (int i = 0; i < nodes_under_seals; ++i) {
            crypto_hash_sha256(hash.data(), memory.data(), kNodeSize);
        }
    });
    return bare;
}

void compare_check(const std::string& data) {
    FullReport report;
    std::vector<double> scans;
    std::vector<double> hashes;
    std::vector<double> seals;
    const std::vector<double> middle = medians(3, {
        [&] { return took_ms([&] { report = check(data); }); },
        [&] {
            const Bare one = bare(data + "/holdpin.db");
            scans.push_back(one.scan_ms);
            hashes.push_back(one.hash_ms);
            seals.push_back(one.seals_ms);
            return one.scan_ms + one.hash_ms;
        },
    });
    fmt::print("  check of {} entries, {} seals, {} signatures: {:.0f} ms\n", report.ledger.size,
               report.seals, report.signatures, middle[0]);
    fmt::print("  bare scan {:.0f} ms, hashing {:.0f} ms, and under the seals {:.0f} ms\n",
               median(scans), median(hashes), median(seals));
    fmt::print("  ratio {:.2f} (1.5 or less is wanted); with the nodes under the seals {:.2f}\n",
               middle[0] / middle[1], middle[0] / (middle[1] + median(seals)));
}

// What a start after an unclean stop does first, and what `ledger check` does besides.
void compare_state(const std::string& data) {
    const auto db = need(Database::open(data + "/holdpin.db", {}));
    std::size_t differing = 0;
    const double folded = took_ms([&] { differing = need(state_differences(*db)).size(); });
    if (differing > 0) std::exit(1);
    const double texts = took_ms([&] { need(damaged_texts(*db)); });
    const double entries = took_ms([&] { check(data); });
    fmt::print("  folding all again {:.0f} ms, private texts {:.0f} ms: ratios to the check of the "
               "entries {:.2f}, {:.2f}\n", folded, texts, folded / entries, texts / entries);
}

void compare_memory(const std::string& tenth, const std::string& full) {
    fmt::print("  most memory of the check: of a tenth {} kB, of all {} kB\n",
               run_child({"", "--check", tenth}).memory_kb,
               run_child({"", "--check", full}).memory_kb);
}

double records_ms(const std::string& data) {
    HandClock clock(kNow);
    SeededRandom random(3);
    return took_ms([&] {
        const auto db = need(Database::open(data + "/holdpin.db", {}));
        const Ledger::Place place{"", "", need(Zone::load("UTC"))};
        const auto ledger = need(Ledger::open(*db, clock, random, place));
        const auto book = need(Book::open(*db, *ledger, random));
        const KioskKey key = need(load_kiosk_key(data + "/kiosk.key"));
        if (!need(look_at_start(*db, *ledger, key, "")).doubt.empty()) std::exit(1);
    });
}

double start_ms(const std::string& data) {
    HandClock clock(kNow);
    SeededRandom random(3);
    return took_ms([&] { open(data, clock, random); });
}

// A kiosk on which somebody stands before a machine.
class Stand {
  public:
    explicit Stand(const std::string& data) : site_(open(data, clock_, random_)) {
        session_ = std::make_unique<Session>(site_->world());
        session_->open_person(*need(person_with_badge(*site_->db, kBadge)));
    }
    double decision_ms() {
        return took_ms([&] {
            for (int i = 0; i < 20; ++i) {
                static_cast<void>(decide_release(need(snapshot_of(*session_, kPlate))));
            }
        });
    }

  private:
    HandClock clock_{kNow};
    SeededRandom random_{7};
    std::unique_ptr<OpenSite> site_;
    std::unique_ptr<Session> session_;
};

void compare_with_empty(const std::string& full, const std::string& empty) {
    const auto starts = medians(21, {[&] { return start_ms(full); },
                                     [&] { return start_ms(empty); }});
    fmt::print("  start {:.2f} ms, of an empty ledger {:.2f} ms: ratio {:.2f} (1.2 or less)\n",
               starts[0], starts[1], starts[0] / starts[1]);
    const auto records = medians(21, {[&] { return records_ms(full); },
                                      [&] { return records_ms(empty); }});
    fmt::print("    its records alone {:.2f} ms and {:.2f} ms\n", records[0], records[1]);
    Stand old(full);
    Stand young(empty);
    const auto decisions = medians(51, {[&] { return old.decision_ms(); },
                                        [&] { return young.decision_ms(); }});
    fmt::print("  20 decisions {:.2f} ms, of an empty ledger {:.2f} ms: ratio {:.2f} "
               "(1.2 or less)\n", decisions[0], decisions[1], decisions[0] / decisions[1]);
}

void make_where_missing(const std::string& data, int uses) {
    if (std::filesystem::exists(data)) return;
    const Child made = run_child({"", "--make", data, std::to_string(uses)});
    fmt::print("  {} uses made in {:.0f} s\n", uses, made.ms / 1000);
}

void run(int uses, const std::string& folder) {
    const std::string full = folder + "/full";
    const std::string tenth = folder + "/tenth";
    const std::string empty = folder + "/empty";
    fmt::print("ledger: {} uses, {} rounds\n", uses, 2 * uses);
    std::filesystem::create_directories(folder);
    make_where_missing(full, uses);
    make_where_missing(tenth, uses / 10);
    make_where_missing(empty, 0);
    fmt::print("  {} MB\n", std::filesystem::file_size(full + "/holdpin.db") / 1'000'000);
    compare_memory(tenth, full);
    compare_export({full, tenth, folder + "/csv"});
    // Of ten years it takes as long as a hundred thousand pages take.
    if (uses <= kMostUsesBound) compare_binder(tenth, full, folder + "/binder");
    compare_check(full);
    compare_state(full);
    compare_with_empty(full, empty);
}

}  // namespace
}  // namespace holdpin::bench

int main(int count, char** words) {
    using namespace holdpin::bench;
    std::setvbuf(stdout, nullptr, _IOLBF, 0);
    const std::string_view first = count > 2 ? words[1] : "";
    if (first == "--check") return check(words[2]).seals > 0 ? 0 : 1;
    if (first == "--make" && count > 3) return make(words[2], std::atoi(words[3]));
    if (first == "--tables" && count > 3) return write_tables(words[2], words[3]);
    if (first == "--binder" && count > 3) return write_binder(words[2], words[3]);
    const holdpin::TempDir temp;
    run(count > 1 ? std::atoi(words[1]) : 300'000, count > 2 ? words[2] : temp / "ten");
    return 0;
}
