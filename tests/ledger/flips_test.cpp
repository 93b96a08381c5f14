// Single bytes of a data file are turned over, anywhere. Whoever reads the rows with the plain
// library and sees another entry than before is the judge: each time the check must say so and name
// that entry. 500 bytes in the ordinary run; 10,000 where HOLDPIN_LONG is set in the environment.
#include <fstream>

#include "ledger/sealed_ledger.hpp"
#include "support/extent.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

constexpr int kOrdinaryFlips = 500;
constexpr int kLongFlips = 10'000;
constexpr int kEntries = 160;

// What the plain library reads of the table, row by row; ends where it cannot go on.
struct PlainRows {
    std::vector<std::string> rows;
    bool whole = false;
};

PlainRows plain_rows(const std::string& path) {
    PlainRows read;
    sqlite3* db = nullptr;
    sqlite3_stmt* statement = nullptr;
    const std::string uri = "file:" + path + "?mode=ro&immutable=1";
    sqlite3_open_v2(uri.c_str(), &db, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, nullptr);
    const char* sql =
        "SELECT n || typeof(body) || hex(body) || typeof(leaf) || hex(leaf) FROM entry ORDER BY n";
    int code = sqlite3_prepare_v2(db, sql, -1, &statement, nullptr);
    if (code == SQLITE_OK) code = sqlite3_step(statement);
    for (; code == SQLITE_ROW; code = sqlite3_step(statement)) {
        const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement, 0));
        const void* text = sqlite3_column_blob(statement, 0);
        read.rows.emplace_back(static_cast<const char*>(text), size);
    }
    read.whole = code == SQLITE_DONE;
    sqlite3_finalize(statement);
    sqlite3_close(db);
    return read;
}

// The number of the first entry that reads differently; 0: none does.
std::int64_t first_touched(const PlainRows& before, const PlainRows& after) {
    for (std::size_t i = 0; i < before.rows.size(); ++i) {
        if (i >= after.rows.size() || after.rows[i] != before.rows[i]) {
            return static_cast<std::int64_t>(i) + 1;
        }
    }
    const bool same = after.whole && after.rows.size() == before.rows.size();
    return same ? 0 : static_cast<std::int64_t>(before.rows.size()) + 1;
}

struct Tally {
    int touched = 0;
    int refused = 0;  // the file was not even opened
    int named = 0;
};

// The verdict of the check on a file in which an entry was touched.
void expect_found(const std::string& path, const Bytes& public_key, std::int64_t touched,
                  Tally& tally) {
    ++tally.touched;
    const auto db = Database::open(path, {.vfs = "", .read_only = true});
    if (!db) {
        ++tally.refused;
        return;
    }
    const auto report = check_ledger(*db.value(), {public_key, {}, {}});
    REQUIRE(report);
    const LedgerReport& ledger = report.value().ledger;
    CHECK(ledger.fault != LedgerFault::none);
    CHECK(ledger.fault != LedgerFault::bad_seal);
    CHECK(ledger.first_bad == touched);
    if (ledger.first_bad == touched) ++tally.named;
}

}  // namespace

TEST_CASE("of bytes turned over in the file, each that touches an entry is found and named") {
    const Scratch scratch;
    const std::string path = scratch.path("a.db");
    Bytes public_key;
    {
        SealedLedger kiosk(path);
        for (int i = 0; i < kEntries / 20; ++i) kiosk.fill_and_seal(20);
        public_key = kiosk.key.public_key;
    }
    const PlainRows before = plain_rows(path);
    REQUIRE(before.rows.size() == kEntries);
    const std::string bytes = read_file(path).value();
    SeededRandom random(2718);
    Tally tally;
    const int flips = as_many(kOrdinaryFlips, kLongFlips);
    for (int i = 0; i < flips; ++i) {
        std::string altered = bytes;
        const auto at = random.below(static_cast<std::uint32_t>(bytes.size()));
        const auto mask = 1 + random.below(255);
        altered[at] = static_cast<char>(static_cast<unsigned char>(altered[at]) ^ mask);
        CAPTURE(at);
        CAPTURE(mask);
        std::ofstream(path, std::ios::binary) << altered;
        const std::int64_t touched = first_touched(before, plain_rows(path));
        if (touched != 0) expect_found(path, public_key, touched, tally);
    }
    MESSAGE(flips << " bytes turned over, " << tally.touched << " touched an entry: "
                  << tally.named << " named, in " << tally.refused << " the file was refused");
    CHECK(tally.touched > flips / 3);
    CHECK(tally.named + tally.refused == tally.touched);
}
