// What stands in a binder.
#include <doctest/doctest.h>

#include <csignal>
#include <fstream>
#include <set>

#include <sys/resource.h>

#include "base/sha256.hpp"
#include "binder/check.hpp"
#include "binder/currency.hpp"
#include "binder/table.hpp"
#include "bound.hpp"
#include "ledger/seal.hpp"
#include "records/records.hpp"
#include "support/shell.hpp"
#include "store/tables.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

std::size_t items_in(const fs::path& dir) {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(dir), fs::directory_iterator()));
}

std::set<std::string> entries_of(const Bound& f, const std::string& table) {
    std::set<std::string> numbers;
    const auto rows = f.table(table);
    for (std::size_t i = 1; i < rows.size(); ++i) numbers.insert(rows[i].cells[0]);
    return numbers;
}

}  // namespace

TEST_CASE("a binder has every table, the exact entries, seals, and sums that hold") {
    Bound f;
    const auto summary = f.make();
    REQUIRE_MESSAGE(summary.ok(), summary.error().sentence());
    CHECK(summary.value().entries == f.ledger->size());
    CHECK(summary.value().sealed == f.ledger->size());
    CHECK(summary.value().root == hex(f.ledger->root()));
    for (const char* table :
         {"rounds", "readings", "findings", "repairs", "returns-to-service", "releases",
          "overrides", "guides", "quizzes", "evaluations", "authorisations", "lockouts", "air",
          "cylinders", "jobs", "tags", "refusals", "people", "machines", "disagreements", "entries",
          "currency"}) {
        CAPTURE(table);
        CHECK(f.table(table).size() > 1);
    }
    std::vector<Hash> leaves;
    for (const auto& line : split(f.file("entries.jsonl"), '\n')) {
        if (!line.empty()) leaves.push_back(leaf_hash(Bytes(line.begin(), line.end())));
    }
    CHECK(root_of(leaves) == f.ledger->root());
    for (const auto& line : split(f.file("SHA256SUMS"), '\n')) {
        if (line.empty()) continue;
        // "<64 hex digits>  <name>", as GNU coreutils' sha256sum writes it.
        CHECK(line.substr(0, 64) == hex(sha256(f.file(line.substr(66)))));
    }
    const auto checked = check_binder(f.out(), f.dir.string(), nullptr);
    REQUIRE_MESSAGE(checked.ok(), checked.error().sentence());
    CHECK(checked.value().seals == 3);
    CHECK(checked.value().files == summary.value().files);
    CHECK(checked.value().kiosk == f.key.kiosk_id());
    CHECK(items_in(f.dir) == 1);
}

TEST_CASE("a truck's rules say law, a scrubber's site policy, and both name their source") {
    Bound f;
    f.made();
    // 29 CFR 1910.178 binds powered industrial trucks; a floor scrubber is none.
    CHECK(f.cell("rounds", 1, "machine") == "SW-14");
    CHECK(f.cell("rounds", 1, "footing") == "site policy");
    CHECK(f.cell("rounds", 2, "machine") == "LT-2");
    CHECK(f.cell("rounds", 2, "footing") == "law");
    CHECK(f.cell("rounds", 2, "footing_source") == "Source of osha-178-q7");
    // The topic belongs to both classes of this site.
    CHECK(f.cell("quizzes", 1, "footing") == "site policy for scrubber; law for truck");
    CHECK(f.cell("evaluations", 1, "footing") == "law");
    CHECK(f.cell("lockouts", 1, "footing") == "law");
    CHECK(f.cell("air", 1, "footing") == "guidance");
    f.content.site.region = "EU";
    fs::remove_all(f.out());
    f.made();
    CHECK(f.cell("rounds", 2, "footing") == "site policy");
    CHECK(f.cell("lockouts", 1, "footing") == "site policy");
}

TEST_CASE("every row of every table begins with its entry and ends with its footing") {
    Bound f;
    f.made();
    for (const auto& item : fs::directory_iterator(f.out() + "/tables")) {
        if (item.path().extension() != ".csv") continue;
        CAPTURE(item.path().string());
        const auto rows = f.table(item.path().stem().string());
        const auto& header = rows[0].cells;
        CHECK(header.front() == "entry");
        CHECK(header[header.size() - 2] == "footing");
        CHECK(header.back() == "footing_source");
        for (const auto& row : rows) {
            CHECK(row.cells.size() == header.size());
            CHECK_FALSE(row.cells[header.size() - 2].empty());
        }
    }
}

TEST_CASE("rows have their names and words, and a formula is shown and not run") {
    Bound f;
    f.made();
    CHECK(f.cell("people", 1, "name") == "'=Ann, \"the lead\"");
    CHECK(f.cell("people", 1, "extension") == "'+49 1");
    CHECK(f.cell("people", 2, "name") == "Ben\nQuispe-Morán");
    CHECK(f.cell("rounds", 1, "by_name") == "Ben Q.");
    CHECK(f.cell("rounds", 1, "at_local") == "2026-11-26T05:40:00-06:00");
    CHECK(f.cell("readings", 1, "reading") == "creeps");
    CHECK(f.cell("readings", 2, "value") == "1284.9");
    CHECK(f.cell("repairs", 1, "words") == "New pads, \"set\"");
    CHECK(f.cell("evaluations", 2, "words") == "'-cmd|' /C calc'!A0");
    CHECK(f.cell("overrides", 1, "reason") == "'@once");
    CHECK(f.cell("quizzes", 1, "percent") == "83");
    CHECK(f.cell("air", 1, "ppm") == "0");
    CHECK(f.cell("air", 1, "read_utc") == "2026-11-27T11:39:59.000Z");
}

TEST_CASE("what was on the screen is in the binder under its sum, and a stranger finds it") {
    Bound f;
    const std::string text = R"({"id":"round","question":{"en":"Brake?","es":"¿Freno?"}})";
    const std::string digest = hex(sha256(text));
    REQUIRE(keep_content(*f.db, digest, text).ok());
    const std::string unkept = hex(sha256(std::string("never kept")));
    f.enter({"guide-read", {"p-ann"}, digest, 0, {{"person", "p-ann"}, {"guide", "g"}}});
    f.enter({"guide-read", {"p-ann"}, unkept, 0, {{"person", "p-ann"}, {"guide", "g"}}});
    REQUIRE(f.sealer.seal().ok());
    f.made();
    CHECK(f.file("content/" + digest + ".json") == text);
    CHECK_FALSE(std::filesystem::exists(f.out() + "/content/" + unkept + ".json"));
    CHECK(check_binder(f.out(), f.temp / "x", nullptr).ok());
    CHECK(run_shell("cd " + f.out() + "/content && sha256sum *.json").said ==
          digest + "  " + digest + ".json\n");
}

TEST_CASE("an erased name leaves an empty cell, and the binder still agrees") {
    Bound f;
    REQUIRE(erase_private(*f.db, "p-ben").ok());
    f.made();
    CHECK(f.cell("people", 2, "name").empty());
    CHECK(f.cell("rounds", 1, "by_name").empty());
    CHECK(f.cell("rounds", 1, "by") == "p-ben");
    CHECK(check_binder(f.out(), f.dir.string(), nullptr).ok());
}

TEST_CASE("a scope narrows the tables and leaves the entries whole") {
    Bound f;
    f.made({std::nullopt, std::nullopt, "p-ben", ""});
    CHECK(f.table("people").size() == 2);
    CHECK(f.table("rounds").size() == 3);
    CHECK(f.table("air").size() == 4);  // was in the room, missing, and seen
    CHECK(f.table("lockouts").size() == 2);
    CHECK(f.cell("lockouts", 1, "kind") == "lock-removed-for-absent");  // its owner
    CHECK(check_binder(f.out(), f.dir.string(), nullptr).value().entries == f.ledger->size());
    CHECK(f.file("HOW-TO-CHECK.md").find("about the person p-ben.") != std::string::npos);

    fs::remove_all(f.out());
    f.made({std::nullopt, std::nullopt, "", "LT-2"});
    CHECK(f.table("rounds").size() == 2);
    CHECK(f.table("people").size() == 1);
    CHECK(check_binder(f.out(), f.dir.string(), nullptr).ok());

    fs::remove_all(f.out());
    f.made({Date{2026, 11, 26}, Date{2026, 11, 26}, "", ""});
    CHECK(f.table("rounds").size() == 3);
    CHECK(f.table("people").size() == 1);
    CHECK(f.table("lockouts").size() == 1);
    CHECK(f.cell("currency", 1, "as_of") == "2026-11-26");
}

TEST_CASE("when a trainee signed is in its column, of older entries and of those written now") {
    Bound f;
    const nlohmann::json signature{{"name", f.hidden("Ann", "p-ann")}, {"meaning", "practise"},
                                   {"language", "en"}};
    f.clock.pass(kDay);
    f.enter({"practised", {"p-ann", "p-ben"}, "", 0,
             {{"person", "p-ben"}, {"class", "scrubber"}, {"topics", {"controls"}},
              {"signature", signature}, {"second_signature", signature}}});
    f.made();
    REQUIRE(f.table("evaluations").size() == 4);
    CHECK(f.cell("evaluations", 1, "trainee_signed_utc") == "2026-11-25T11:39:59.000Z");
    CHECK(f.cell("evaluations", 2, "trainee_signed_utc").empty());  // an evaluation
    CHECK(f.cell("evaluations", 3, "trainee_signed_utc") == "2026-11-28T11:40:00.000Z");
    CHECK(f.cell("evaluations", 3, "at_utc") == "2026-11-28T11:40:00.000Z");
}

TEST_CASE("tables have what was recorded of air, lockouts and releases") {
    Bound f;
    f.made();
    const auto row_of = [&](const char* table, const std::string& kind) {
        std::size_t row = 1;
        while (row < f.table(table).size() && f.cell(table, row, "kind") != kind) ++row;
        return row;
    };
    const std::size_t assessed = row_of("lockouts", "arm-alone-assessed");
    CHECK(f.cell("lockouts", assessed, "machine_class") == "scrubber");
    CHECK(f.cell("lockouts", assessed, "words") == "In the red binder");
    for (const char* kind : {"zone-left", "engine-stopped", "rinse-left"}) {
        CHECK(f.cell("lockouts", row_of("lockouts", kind), "machine") == "SW-14");
    }
    CHECK(f.cell("air", row_of("air", "symptoms-reported"), "felt_ill") == "2");
    const std::size_t counted = row_of("air", "heads-counted");
    CHECK(f.cell("air", counted, "seen") == "p-ann");
    CHECK(f.cell("air", counted, "missing") == "p-ben");
    const std::size_t given = row_of("releases", "release-given");
    CHECK(f.cell("releases", given, "air_until_utc") == "2026-11-26T12:10:00.000Z");
    CHECK(f.cell("releases", given, "rooms") == "hall dock");
    CHECK(f.cell("releases", given, "shifts") == "early");
}

TEST_CASE("every kind of entry is in a table, or in the list of those that only entries has") {
    const std::string root = HOLDPIN_TEST_SOURCE_DIR;
    const std::string kinds = read_file(root + "/src/records/ENTRIES.md").value();
    const std::string format = read_file(root + "/src/binder/FORMAT.md").value();
    const auto from = format.find("Kinds that stand in `entries` alone");
    REQUIRE(from != format.npos);
    const std::string alone = format.substr(from, format.find("A test holds", from) - from);
    int seen = 0;
    for (const std::string& line : split(kinds, '\n')) {
        if (!line.starts_with("### `")) continue;
        const std::string kind = line.substr(5, line.find('`', 5) - 5);
        CAPTURE(kind);
        ++seen;
        const auto& forms = table_forms();
        const bool in_table =
            std::any_of(forms.begin(), forms.end(), [&](const TableForm& form) {
                return form.name != "entries" && form.takes(kind);
            });
        CHECK(in_table != (alone.find("`" + kind + "`") != alone.npos));
    }
    CHECK(seen >= 100);
}

TEST_CASE("a disagreement is a row that names its entry, wherever the disputed entry is") {
    Bound f;
    f.made();
    CHECK(f.cell("disagreements", 1, "about") == f.cell("findings", 1, "entry"));
    CHECK(f.cell("disagreements", 1, "by") == "p-ben");
    CHECK(f.cell("disagreements", 1, "by_name") == "Ben\nQuispe-Morán");
    CHECK(f.cell("disagreements", 1, "words") == "It held for me");
    const auto rows_in = [&](const BinderScope& scope) {
        fs::remove_all(f.out());
        f.made(scope);
        return f.table("disagreements").size() - 1;
    };
    CHECK(rows_in({std::nullopt, std::nullopt, "p-ben", ""}) == 1);
    CHECK(rows_in({std::nullopt, std::nullopt, "p-ann", ""}) == 0);
    CHECK(rows_in({std::nullopt, std::nullopt, "", "SW-14"}) == 1);
    CHECK(rows_in({std::nullopt, std::nullopt, "", "LT-2"}) == 0);
    CHECK(rows_in({std::nullopt, Date{2026, 11, 25}, "", "SW-14"}) == 0);
    REQUIRE(erase_private(*f.db, "p-ben").ok());
    CHECK(rows_in({}) == 1);
    CHECK(f.cell("disagreements", 1, "words").empty());
}

TEST_CASE("a person or machine that nobody knows, and days the wrong way round, are refused") {
    Bound f;
    CHECK(f.make({std::nullopt, std::nullopt, "p-bne", ""}).error().kind == ErrorKind::absent);
    CHECK(f.make({std::nullopt, std::nullopt, "", "LT-9"}).error().kind == ErrorKind::absent);
    CHECK(f.make({Date{2026, 11, 26}, Date{2026, 11, 25}, "", ""}).error().kind ==
          ErrorKind::invalid);
    CHECK(items_in(f.dir) == 0);
}

TEST_CASE("who is current comes out as the present state has it, with the entry it comes from") {
    Bound f;
    f.made();
    const auto records = topics_of(*f.db, "p-ben").value();
    const auto& controls = records.at("controls");
    const auto rows = f.table("currency");
    REQUIRE(rows.size() == 3);  // both classes have the topic
    for (std::size_t row : {1U, 2U}) {
        CHECK(f.cell("currency", row, "instructed") == iso_date(*controls.instructed));
        CHECK(f.cell("currency", row, "practised") == iso_date(*controls.practised));
        CHECK(f.cell("currency", row, "evaluated") == iso_date(*controls.evaluated));
        CHECK(f.cell("currency", row, "state") == "current");
        CHECK(f.cell("currency", row, "valid_until") == "2029-11-25");
    }
    CHECK(f.cell("currency", 1, "authorised") == "false");
    CHECK(f.cell("currency", 2, "authorised") == "true");
    CHECK(entries_of(f, "currency") == std::set<std::string>{f.cell("evaluations", 2, "entry")});

    fs::remove_all(f.out());
    f.made({std::nullopt, Date{2029, 11, 26}, "", ""});
    CHECK(f.cell("currency", 1, "state") == "lapsed");
}

TEST_CASE("a binder never writes over anything, and a cancelled one leaves nothing") {
    Bound f;
    fs::create_directories(f.out());
    REQUIRE(write_file(f.out() + "/mine.txt", "mine").ok());
    CHECK(f.make().error().kind == ErrorKind::refused);
    CHECK(read_file(f.out() + "/mine.txt").value() == "mine");
    const std::string zip = (f.dir / "out.zip").string();
    REQUIRE(write_file(zip, "mine").ok());
    CHECK(f.make({}, zip).error().kind == ErrorKind::refused);
    CHECK(items_in(f.dir) == 2);
    for (const char* name : {"new", "new.zip"}) {
        for (int from : {0, 800, 900}) {
            const auto stop = [&](int done, int) { return done < from; };
            const auto made = f.make({}, (f.dir / name).string(), stop);
            REQUIRE_FALSE(made.ok());
            CHECK(made.error().what == "the binder was cancelled");
        }
    }
    CHECK(items_in(f.dir) == 2);
}

TEST_CASE("a disk that is full ends a binder with that sentence, and nothing is left") {
    Bound f;
    // Files above this size are refused by the system, as by a disk without room.
    rlimit before{};
    ::getrlimit(RLIMIT_FSIZE, &before);
    const auto old = std::signal(SIGXFSZ, SIG_IGN);
    f.made();
    std::uintmax_t largest = 0;
    for (const auto& item : fs::recursive_directory_iterator(f.out())) {
        if (item.is_regular_file()) largest = std::max(largest, item.file_size());
    }
    fs::remove_all(f.out());
    // The last one has room for every file, and none for the zip of them.
    for (const rlim_t room : {rlim_t{0}, rlim_t{4096}, rlim_t{largest + 1}}) {
        rlimit small{room, before.rlim_max};
        ::setrlimit(RLIMIT_FSIZE, &small);
        const auto made = f.make({}, (f.dir / (room > largest ? "out.zip" : "out")).string());
        ::setrlimit(RLIMIT_FSIZE, &before);
        REQUIRE_FALSE(made.ok());
        CHECK_MESSAGE(made.error().kind == ErrorKind::full, made.error().sentence());
        CHECK(made.error().mend == "make room there, or name another place");
        CHECK(items_in(f.dir) == 0);
    }
    std::signal(SIGXFSZ, old);
}

TEST_CASE("papers of other writers are in the sums, and a name that leaves the folder is refused") {
    Bound f;
    std::string name = "papers/round-12.pdf";
    f.writers.push_back([&](const BinderMaterial& material, const BinderSink& sink) {
        CHECK(material.ledger.size() == f.ledger->size());
        return sink({name, "%PDF"});
    });
    f.made();
    CHECK(f.file("papers/round-12.pdf") == "%PDF");
    CHECK(check_binder(f.out(), f.dir.string(), nullptr).ok());
    for (const char* bad : {"../x.pdf", "/x.pdf", "papers/../../x", "entries.jsonl", "ñ.pdf"}) {
        name = bad;
        CHECK(f.make({}, (f.dir / "other").string()).error().kind == ErrorKind::refused);
    }
    CHECK(items_in(f.dir) == 1);
}

TEST_CASE("a paper is on disk when the next is printed, and one that fails leaves nothing") {
    Bound f;
    std::string seen;
    f.writers.push_back([&](const BinderMaterial&, const BinderSink& sink) -> Result<void> {
        TRY(sink({"papers/one.pdf", "%PDF"}));
        for (const auto& item : fs::recursive_directory_iterator(f.dir)) {
            if (item.path().filename() == "one.pdf") seen = item.path().string();
        }
        return Error{ErrorKind::failed, "the second cannot be printed", "", ""};
    });
    const auto made = f.make();
    REQUIRE_FALSE(made.ok());
    CHECK(made.error().what == "the second cannot be printed");
    CHECK_FALSE(seen.empty());
    CHECK(items_in(f.dir) == 0);
}

TEST_CASE("a binder is cancelled between two papers, and leaves nothing") {
    Bound f;
    int papers = 0;
    f.writers.push_back([&](const BinderMaterial& material,
                            const BinderSink& sink) -> Result<void> {
        for (int i = 0; i < 10; ++i, ++papers) {
            if (!material.progress(i, 10)) {
                return Error{ErrorKind::refused, "the binder was cancelled", "", ""};
            }
            TRY(sink({"papers/" + std::to_string(i) + ".pdf", "%PDF"}));
        }
        return {};
    });
    const auto made = f.make({}, "", [&](int, int) { return papers < 4; });
    REQUIRE_FALSE(made.ok());
    CHECK(made.error().kind == ErrorKind::refused);
    CHECK(papers == 4);
    CHECK(items_in(f.dir) == 0);
}

TEST_CASE("the same records give the same binder, as a folder and as a zip") {
    Bound f;
    const std::string one = (f.dir / "one.zip").string();
    const std::string two = (f.dir / "two.zip").string();
    REQUIRE(f.make({}, one).ok());
    REQUIRE(f.make({}, two).ok());
    CHECK(read_file(one).value() == read_file(two).value());
    CHECK(check_binder(one, f.dir.string(), nullptr).value().entries == f.ledger->size());
    CHECK(items_in(f.dir) == 2);
}

TEST_CASE("a binder is for its owner alone, until it is handed on") {
    Bound f;
    const std::string zip = (f.dir / "out.zip").string();
    REQUIRE(f.make({}, zip).ok());
    f.made();
    const auto others = fs::perms::group_all | fs::perms::others_all;
    CHECK((fs::status(zip).permissions() & others) == fs::perms::none);
    CHECK((fs::status(f.out()).permissions() & others) == fs::perms::none);
}

TEST_CASE("of a day only its last seal is in the binder, and of the newest day the newest") {
    Bound f;
    f.enter({"signed-on", {"p-ben"}, "", 0, nlohmann::json::object()});
    REQUIRE(f.sealer.seal().ok());
    f.made();
    CHECK(items_in(f.out() + "/seals") == 3);
    const std::string digits = std::to_string(f.ledger->size());
    const std::string newest =
        f.file("seals/" + std::string(10 - digits.size(), '0') + digits + ".json");
    const auto seal = seal_from(trimmed(newest));
    REQUIRE(seal.ok());
    CHECK(seal.value().root == f.ledger->root());
}

TEST_CASE("entries above the newest seal are found by a check") {
    Bound f;
    f.enter({"signed-on", {"p-ben"}, "", 0, nlohmann::json::object()});
    const auto summary = f.make();
    CHECK(summary.value().sealed + 1 == summary.value().entries);
    const auto checked = check_binder(f.out(), f.dir.string(), nullptr);
    REQUIRE_FALSE(checked.ok());
    CHECK(checked.error().what.starts_with("the newest covers"));
}
