#include "binder/export.hpp"

#include <doctest/doctest.h>

#include <unistd.h>

#include <filesystem>

#include "base/sha256.hpp"
#include "base/text.hpp"
#include "binder/csv.hpp"
#include "records/book.hpp"
#include "store/tables.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

// 2026-11-25T11:40:00Z, 05:40 in Chicago (UTC-6 in winter).
constexpr std::int64_t kStart = 1795606800000;

// Records in memory, and a folder to write into that goes away again.
struct Fixture {
    HandClock clock{kStart};
    SeededRandom random{7};
    std::unique_ptr<Database> db = Database::open(":memory:", {}).value();
    std::unique_ptr<Ledger> ledger = open_ledger();
    std::unique_ptr<Book> book = Book::open(*db, *ledger, random).value();
    fs::path dir = fs::temp_directory_path() / ("holdpin-export-" + std::to_string(::getpid()));

    std::unique_ptr<Ledger> open_ledger() {
        auto place = Ledger::Place{"ash-lane", "0123456789abcdef",
                                   Zone::load("America/Chicago").value()};
        return Ledger::open(*db, clock, random, place).value();
    }
    Fixture() {
        fs::remove_all(dir);
        const auto name = keep_private(*db, random, "=Ann, \"the lead\"", "p-ann").value();
        enter({"person-enrolled", {}, "", 0,
               {{"person", "p-ann"}, {"name", name}, {"badge", "H-1"}, {"language", "en"},
                {"duties", {"operator", "trainer"}}, {"endorsements", nlohmann::json::array()},
                {"extension", ""}, {"competence", ""}, {"listed_until", ""}}});
        const nlohmann::json signature{{"name", name}, {"meaning", "walked"}, {"language", "en"}};
        enter({"round-signed", {"p-ann"}, "d1", 0,
               {{"machine", "SW-14"}, {"round_kind", "before"}, {"hours", "1284.9"},
                {"fuel", "80"}, {"takeover", false}, {"shift_end_ms", kStart + 3'600'000},
                {"signature", signature},
                {"readings",
                 {{{"point", "brake"}, {"reading", "creeps"}, {"at_ms", kStart}, {"finding", 7}},
                  {{"point", "hour-meter"}, {"value", "1284.9"}, {"at_ms", kStart + 1000}}}}}});
    }
    ~Fixture() { fs::remove_all(dir); }
    Fixture(const Fixture&) = delete;
    Fixture& operator=(const Fixture&) = delete;

    void enter(const Fact& fact) { REQUIRE(book->enter(fact).ok()); }
    std::string out() const { return (dir / "out").string(); }
    std::vector<CsvRow> table(const char* name) const {
        return read_csv(read_file(out() + "/" + name).value()).value();
    }
    std::string cell(const char* name, std::size_t row, const std::string& column) const {
        const auto rows = table(name);
        for (std::size_t i = 0; i < rows[0].cells.size(); ++i) {
            if (rows[0].cells[i] == column) return rows.at(row).cells[i];
        }
        return "(no such column)";
    }
};

}  // namespace

TEST_CASE("an export has every table, the exact entries and sums that hold") {
    Fixture f;
    const auto report = export_records(*f.db, *f.ledger, f.out());
    REQUIRE_MESSAGE(report.ok(), report.error().sentence());
    CHECK(report.value().entries == 2);
    CHECK(report.value().files.size() == 10);
    const auto sums = split(read_file(f.out() + "/SHA256SUMS").value(), '\n');
    CHECK(sums.size() == report.value().files.size());  // its own is not in it, an empty line is
    for (const auto& line : sums) {
        if (line.empty()) continue;
        // "<64 hex digits>  <name>", as GNU coreutils' sha256sum writes it.
        const std::string name = line.substr(66);
        CHECK(line.substr(0, 64) == hex(sha256(read_file(f.out() + "/" + name).value())));
    }
}

TEST_CASE("the exported lines give the root of the ledger by RFC 6962 alone") {
    Fixture f;
    REQUIRE(export_records(*f.db, *f.ledger, f.out()).ok());
    std::vector<Hash> leaves;
    for (const auto& line : split(read_file(f.out() + "/entries.jsonl").value(), '\n')) {
        if (line.empty()) continue;
        leaves.push_back(leaf_hash(Bytes(line.begin(), line.end())));
    }
    CHECK(leaves.size() == 2);
    CHECK(root_of(leaves) == f.ledger->root());
    CHECK(read_file(f.out() + "/README.txt").value().find(hex(f.ledger->root())) !=
          std::string::npos);
}

TEST_CASE("a round comes out with its signer, its values and each of its readings") {
    Fixture f;
    REQUIRE(export_records(*f.db, *f.ledger, f.out()).ok());
    CHECK(f.cell("rounds.csv", 1, "machine") == "SW-14");
    CHECK(f.cell("rounds.csv", 1, "hours") == "1284.9");
    CHECK(f.cell("rounds.csv", 1, "meaning") == "walked");
    CHECK(f.cell("rounds.csv", 1, "at_local") == "2026-11-25T05:40:00-06:00");
    CHECK(f.cell("readings.csv", 1, "reading") == "creeps");
    CHECK(f.cell("readings.csv", 1, "finding_entry") == "7");
    CHECK(f.cell("readings.csv", 2, "value") == "1284.9");
    CHECK(f.cell("entries.csv", 2, "kind") == "round-signed");
}

TEST_CASE("a name that looks like a formula is shown and not run") {
    Fixture f;
    REQUIRE(export_records(*f.db, *f.ledger, f.out()).ok());
    CHECK(f.cell("people.csv", 1, "name") == "'=Ann, \"the lead\"");
    CHECK(f.cell("people.csv", 1, "duties") == "operator trainer");
    CHECK(f.cell("rounds.csv", 1, "by_name") == "'=Ann, \"the lead\"");
}

TEST_CASE("an erased name leaves an empty cell and the root as it was") {
    Fixture f;
    const Hash before = f.ledger->root();
    REQUIRE(erase_private(*f.db, "p-ann").ok());
    REQUIRE(export_records(*f.db, *f.ledger, f.out()).ok());
    CHECK(f.cell("people.csv", 1, "name").empty());
    CHECK(f.cell("rounds.csv", 1, "by_name").empty());
    CHECK(f.cell("rounds.csv", 1, "by") == "p-ann");
    CHECK(f.ledger->root() == before);
}

TEST_CASE("an export never writes over a folder that holds anything, and leaves nothing behind") {
    Fixture f;
    fs::create_directories(f.out());
    REQUIRE(write_file(f.out() + "/mine.txt", "mine").ok());
    const auto report = export_records(*f.db, *f.ledger, f.out());
    REQUIRE_FALSE(report.ok());
    CHECK(report.error().kind == ErrorKind::refused);
    CHECK(read_file(f.out() + "/mine.txt").value() == "mine");
    CHECK(std::distance(fs::directory_iterator(f.dir), fs::directory_iterator()) == 1);
}
