// A ledger of ten years against its own bytes and against an empty one; all ratios from one run:
//   check     the full check of a copy, against a bare scan of the table plus hashing as many leaf
//             and node bytes from memory with the same library
//   start     the records opened, the newest seal and the end of the ledger looked at
//   decision  the snapshot of a machine read from the records, and the release decided
// Words: the number of uses (300000), and a folder to keep the data in and find them again.
#include <sodium.h>
#include <sqlite3.h>
#include <sys/resource.h>

#include "support/temp_dir.hpp"
#include "flows/plates.hpp"
#include "flows/session.hpp"
#include "ledger/copy_check.hpp"
#include "ten_years.hpp"

namespace holdpin::bench {
namespace {

constexpr std::int64_t kStart = 1480000000000;  // ten years before
constexpr std::int64_t kNow = 1795608300000;    // 2026-11-25T12:05:00Z
constexpr const char* kPlate = "SW-14";
constexpr const char* kBadge = "H-1042";

long most_memory_kb() {
    rusage used{};
    ::getrusage(RUSAGE_SELF, &used);
    return used.ru_maxrss;
}

std::unique_ptr<OpenSite> open(const std::string& data, Clock& clock, Random& random) {
    return need(open_site(data, resolved({}), clock, random, PinCost::least));
}

void make(const std::string& data, int uses) {
    HandClock clock(kStart);
    SeededRandom random(7);
    make_example_site(data, clock, random);
    if (uses == 0) return;
    const auto site = open(data, clock, random);
    TenYears(*site, clock, 2026).make(uses);
}

// Every row of the table, touched; then as many bytes hashed from memory, in the same portions.
struct Bare {
    double scan_ms = 0;
    double hash_ms = 0;
};

Bare bare(const std::string& path) {
    std::vector<std::size_t> sizes;
    std::size_t longest = 0;
    Bare bare;
    bare.scan_ms = took_ms([&] {
        const auto db = need(Database::open(path, {.vfs = "", .read_only = true}));
        auto query = db->query("SELECT n, body, leaf FROM entry ORDER BY n");
        while (need(query.next())) {
            sizes.push_back(query.blob_view(1).size() + query.blob_view(2).size() - 32 + 1);
            longest = std::max(longest, sizes.back());
        }
    });
    const Bytes memory(std::max<std::size_t>(longest, 65), 0x5a);
    bare.hash_ms = took_ms([&] {
        Hash hash{};
        for (const std::size_t size : sizes) {
            crypto_hash_sha256(hash.data(), memory.data(), size);
            crypto_hash_sha256(hash.data(), memory.data(), 65);
        }
    });
    return bare;
}

void compare_check(const std::string& path, const Bytes& key) {
    std::uint64_t seals = 0;
    std::uint64_t signatures = 0;
    std::uint64_t entries = 0;
    std::vector<double> scans;
    std::vector<double> hashes;
    const long before = most_memory_kb();
    long after = 0;
    const std::vector<double> middle = medians(3, {
        [&] {
            return took_ms([&] {
                const auto db = need(Database::open(path, {.vfs = "", .read_only = true}));
                const FullReport report = need(check_ledger(*db, {key, {}, {}}));
                if (report.ledger.fault != LedgerFault::none) std::exit(1);
                entries = report.ledger.size;
                seals = report.seals;
                signatures = report.signatures;
                after = after == 0 ? most_memory_kb() : after;
            });
        },
        [&] {
            const Bare one = bare(path);
            scans.push_back(one.scan_ms);
            hashes.push_back(one.hash_ms);
            return one.scan_ms + one.hash_ms;
        },
    });
    fmt::print("  check of {} entries, {} seals, {} signatures: {:.0f} ms\n", entries, seals,
               signatures, middle[0]);
    fmt::print("  bare scan {:.0f} ms and hashing {:.0f} ms\n", median(scans), median(hashes));
    fmt::print("  ratio {:.2f} (1.5 or less is wanted)\n", middle[0] / middle[1]);
    fmt::print("  most memory before the check {} kB, after it {} kB\n", before, after);
}

double start_ms(const std::string& data) {
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
    Stand old(full);
    Stand young(empty);
    const auto decisions = medians(51, {[&] { return old.decision_ms(); },
                                        [&] { return young.decision_ms(); }});
    fmt::print("  20 decisions {:.2f} ms, of an empty ledger {:.2f} ms: ratio {:.2f} "
               "(1.2 or less)\n", decisions[0], decisions[1], decisions[0] / decisions[1]);
}

void run(int uses, const std::string& folder) {
    const std::string full = folder + "/full";
    const std::string empty = folder + "/empty";
    fmt::print("ledger: {} uses, {} rounds\n", uses, 2 * uses);
    if (!std::filesystem::exists(full)) {
        fmt::print("  made in {:.0f} s\n", took_ms([&] { make(full, uses); }) / 1000);
    }
    if (!std::filesystem::exists(empty)) make(empty, 0);
    fmt::print("  {} MB\n", std::filesystem::file_size(full + "/holdpin.db") / 1'000'000);
    std::fflush(stdout);
    compare_check(full + "/holdpin.db", need(load_kiosk_key(full + "/kiosk.key")).public_key);
    compare_with_empty(full, empty);
}

}  // namespace
}  // namespace holdpin::bench

int main(int count, char** words) {
    const holdpin::TempDir temp;
    const int uses = count > 1 ? std::atoi(words[1]) : 300'000;
    holdpin::bench::run(uses, count > 2 ? words[2] : temp / "ten");
    return 0;
}
