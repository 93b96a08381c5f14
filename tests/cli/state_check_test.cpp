// The folded state is held against the entries: by the check, by the daily copy, and at a start.
#include "records/state_check.hpp"

#include <doctest/doctest.h>

#include <thread>

#include "cli/backup.hpp"
#include "cli/stored_records.hpp"
#include "example_site.hpp"
#include "records/fold.hpp"
#include "records/records.hpp"
#include "run_program.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

// What somebody with the file in hand does to the state, and the table it shows in.
struct Meddling {
    const char* sql;
    const char* table;
};
constexpr Meddling kMeddlings[] = {
    {"DELETE FROM s_finding", "s_finding"},
    {"UPDATE s_finding SET open=0", "s_finding"},
    {"UPDATE s_machine SET hours=hours+1", "s_machine"},
    {"INSERT INTO s_authorisation SELECT 'p-vang-oduya', class, entry, rooms, shifts FROM "
     "s_authorisation WHERE person='p-okafor-lind'",
     "s_authorisation"},
    {"INSERT OR REPLACE INTO s_topic SELECT 'p-vang-oduya', topic, instructed, practised, "
     "evaluated, refresher FROM s_topic WHERE person='p-okafor-lind'",
     "s_topic"},
    {"UPDATE s_person SET duties='[\"supervising\"]' WHERE id='p-vang-oduya'", "s_person"},
    {"DROP TABLE s_finding", "s_finding"},
    {"DROP INDEX s_finding_open", "s_finding"},
    {"CREATE TRIGGER quietly AFTER INSERT ON s_finding BEGIN DELETE FROM s_finding; END",
     "s_finding"},
    {"ALTER TABLE s_lock ADD COLUMN more TEXT", "s_lock"},
    {"UPDATE s_folded SET entry=entry-1", "s_folded"},
};

Fact stop_finding() {
    Fact fact{"finding-entered", {"p-okafor-lind"}, "", 0, nlohmann::json::object()};
    fact.data = {{"machine", "SW-14"}, {"point", "parking-brake"}, {"reading", "creeps"},
                 {"outcome", "stop"}, {"hazard", "x"}, {"source", "round"}, {"text", ""}};
    return fact;
}

struct HeldSite : ExampleSite {
    HeldSite() { REQUIRE(init().ok()); }
    std::unique_ptr<OpenSite> start() {
        auto site = open_site(data, dirs, clock, random, PinCost::least, copies);
        if (!site) FAIL(site.error().sentence());
        return std::move(site).value();
    }
    void enter_finding() { REQUIRE(start()->book->enter(stop_finding()).ok()); }
    void meddle(const char* sql) {
        const auto db = open_database(data);
        REQUIRE(db.ok());
        REQUIRE(db.value()->execute(sql).ok());
    }
    std::string words() const { return " --data " + data + " --seal-copy " + copies; }
    std::string copies = temp / "copies";
};

}  // namespace

TEST_CASE("a start folds again what a program of another version has folded") {
    HeldSite example;
    example.enter_finding();
    example.meddle("UPDATE fact SET value='another' WHERE name='folding'; DELETE FROM s_finding; "
                   "DROP TABLE s_folded; CREATE TABLE s_folded(one, entry)");
    CHECK(run("ledger check" + example.words()).code == 0);  // nothing to hold it against yet
    const auto site = example.start();
    const auto differing = state_differences(*site->db);
    REQUIRE(differing.ok());
    CHECK(differing.value().empty());
    CHECK(machine_state(*site->db, "SW-14").value().findings.size() == 1);
}

TEST_CASE("the state that was folded is what the entries say, and looking leaves nothing behind") {
    HeldSite example;
    const auto site = example.start();
    REQUIRE(site->book->enter(stop_finding()).ok());
    for (int i = 0; i < 2; ++i) {
        const auto differing = state_differences(*site->db);
        if (!differing) FAIL(differing.error().sentence());
        CHECK(differing.value().empty());
    }
    auto tables = site->db->query("SELECT count(*) FROM temp.sqlite_schema");
    REQUIRE(tables.next().ok());
    CHECK(tables.integer(0) == 0);
    REQUIRE(site->book->enter(stop_finding()).ok());
    CHECK(state_differences(*site->db).value().empty());
}

TEST_CASE("whatever is changed in the state alone is found, named and mended by a rebuild") {
    HeldSite example;
    example.enter_finding();
    fs::copy(example.data, example.temp / "good", fs::copy_options::recursive);
    for (const Meddling& meddling : kMeddlings) {
        CAPTURE(std::string(meddling.sql));
        example.meddle(meddling.sql);
        {
            const auto db = open_database(example.data);
            const auto differing = state_differences(*db.value());
            if (!differing) FAIL(differing.error().sentence());
            CHECK(differing.value() == std::vector<std::string>{meddling.table});
        }
        const Ran rebuilt = run("ledger rebuild --data " + example.data, true);
        CHECK_MESSAGE(rebuilt.code == 0, rebuilt.said);
        CHECK(rebuilt.said.find("not as it was before") != std::string::npos);
        CHECK(state_differences(*open_database(example.data).value()).value().empty());
        fs::remove_all(example.data);
        fs::copy(example.temp / "good", example.data, fs::copy_options::recursive);
    }
}

TEST_CASE("the check says which tables differ, and what to run") {
    HeldSite example;
    example.enter_finding();
    CHECK(run("ledger check" + example.words()).said.find("state is what the entries say") !=
          std::string::npos);
    example.meddle("DELETE FROM s_finding; UPDATE s_machine SET hours=0");
    const Ran checked = run("ledger check" + example.words());
    CHECK(checked.code == 1);
    CHECK(checked.said.find("s_machine, s_finding") != std::string::npos);
    CHECK(checked.said.find("run: holdpin ledger rebuild") != std::string::npos);
    const auto json = nlohmann::json::parse(run("ledger check --json" + example.words()).said);
    CHECK(json["state_differs"] == nlohmann::json({"s_machine", "s_finding"}));
    const Ran backup = run("backup " + (example.temp / "stick") + example.words(), true);
    CHECK(backup.code == 1);
    CHECK(backup.said.find("s_finding") != std::string::npos);
    CHECK(run("ledger rebuild --data " + example.data).code == 0);
    CHECK(run("ledger check" + example.words()).code == 0);
}

TEST_CASE("a state that the daily check found wanting holds the machines until it was rebuilt") {
    HeldSite example;
    example.enter_finding();
    {
        const auto site = example.start();
        REQUIRE(site->db->execute("DELETE FROM s_finding").ok());
        CHECK(site->world().ledger_holds());
        BackupWatch watch({*site->db, example.clock, site->sealer->key().kiosk_id(),
                           example.temp / "backups",
                           [key = site->sealer->key().public_key] { return Evidence{key, {}, {}}; },
                           [&site] { return !site->ledger_doubt.empty(); },
                           [&site](const Error& why) { site->put_in_doubt(why); },
                           [](const Error& error) { FAIL(error.sentence()); }, true});
        for (int i = 0; i < 4000 && site->ledger_doubt.empty(); ++i) {
            watch.step();
            std::this_thread::sleep_for(std::chrono::milliseconds(2));
        }
        CHECK(site->ledger_doubt.find("s_finding") != std::string::npos);
        CHECK_FALSE(site->world().ledger_holds());
    }
    CHECK_FALSE(example.start()->world().ledger_holds());
    CHECK(run("ledger rebuild --data " + example.data).code == 0);
    CHECK(example.start()->world().ledger_holds());
}

TEST_CASE("a site whose zone was changed folds to the same state, and nothing differs") {
    HeldSite site;
    const auto open = site.start();
    Fact practised{"practised", {"p-okafor-lind"}, "", 0, nlohmann::json::object()};
    practised.data = {{"person", "p-vang-oduya"}, {"class", "ride-on-scrubber-lp"},
                      {"topics", {"controls"}}};
    REQUIRE(open->book->enter(practised).ok());
    const std::string before = state_digest(*open->db).value();
    // A day apart: in one of them the day of an entry is another.
    for (const char* zone : {"Pacific/Kiritimati", "Pacific/Pago_Pago"}) {
        auto place = open->ledger->place();
        place.zone = Zone::load(zone).value();
        const auto ledger = Ledger::open(*open->db, site.clock, site.random, std::move(place));
        REQUIRE(ledger.ok());
        const auto book = Book::open(*open->db, *ledger.value(), site.random);
        REQUIRE(book.ok());
        REQUIRE(book.value()->rebuild().ok());
        CHECK(state_digest(*open->db).value() == before);
        CHECK(state_differences(*open->db).value().empty());
    }
}

TEST_CASE("an altered name is named by check, backup and binder, and counts as erased") {
    HeldSite example;
    example.enter_finding();
    example.meddle("UPDATE private_text SET text='X. Otherperson' WHERE text='R. Okafor-Lind'");
    for (const std::string& words : {std::string("ledger check"),
                                     "backup " + (example.temp / "stick")}) {
        const Ran ran = run(words + example.words(), true);
        CHECK(ran.code == 1);
        CHECK(ran.said.find("about p-okafor-lind") != std::string::npos);
    }
    CHECK_FALSE(fs::is_empty(example.temp / "stick"));
    const std::string out = example.temp / "binder";
    const Ran made = run("binder make " + out + example.words(), true);
    CHECK_MESSAGE(made.code == 0, made.said);
    CHECK(made.said.find("entries ") != std::string::npos);
    CHECK(read_file(out + "/damaged-texts.txt").value().find("p-okafor-lind") !=
          std::string::npos);
    CHECK(read_file(out + "/tables/people.csv").value().find("Otherperson") == std::string::npos);
    const Ran checked = run("binder check " + out, true);
    CHECK_MESSAGE(checked.code == 0, checked.said);
    CHECK(example.start()->world().ledger_holds());
}

TEST_CASE("a seal outside that is gone or spoiled comes back on a code from the shift book only") {
    HeldSite example;
    example.enter_finding();
    const std::string copy =
        seal_copy_path(example.copies, example.start()->sealer->key().kiosk_id());
    const std::string told = run("ledger witness" + example.words()).said;
    const std::string code = told.substr(0, told.find('\n'));
    for (const bool spoiled : {false, true}) {
        CAPTURE(spoiled);
        fs::remove(copy);
        if (spoiled) REQUIRE(write_file(copy, "junk").ok());
        CHECK_FALSE(example.start()->world().ledger_holds());
        CHECK(fs::exists(copy) == spoiled);
        CHECK(run("ledger check" + example.words()).code == 1);
        CHECK(run("ledger check --renew-seal" + example.words()).code == 2);
        CHECK(run("ledger check --renew-seal --witness AAAA-AAAA" + example.words()).code == 1);
        CHECK(fs::exists(copy) == spoiled);
        const Ran renewed =
            run("ledger check --renew-seal --witness '" + code + "'" + example.words(), true);
        CHECK_MESSAGE(renewed.code == 0, renewed.said);
        CHECK(example.start()->world().ledger_holds());
    }
}
