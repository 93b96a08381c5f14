// Somebody alters the state tables of a kiosk that was stopped in order: the next start knows.
#include "cli/closing_mark.hpp"

#include <doctest/doctest.h>

#include <thread>

#include "cli/stored_records.hpp"
#include "example_site.hpp"
#include "run_program.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

constexpr const char* kMarkMeddlings[] = {
    "DELETE FROM s_finding",
    "UPDATE s_finding SET open=0",
    "UPDATE s_machine SET hours=hours+1",
    "INSERT OR REPLACE INTO s_topic SELECT 'p-vang-oduya', topic, instructed, practised, "
    "evaluated, refresher FROM s_topic WHERE person='p-okafor-lind'",
    "UPDATE s_person SET duties='[\"supervising\"]' WHERE id='p-vang-oduya'",
};

struct LeftSite : ExampleSite {
    LeftSite() {
        REQUIRE(init().ok());
        Fact finding{"finding-entered", {"p-okafor-lind"}, "", 0, nlohmann::json::object()};
        finding.data = {{"machine", "SW-14"}, {"point", "parking-brake"}, {"reading", "creeps"},
                        {"outcome", "stop"}, {"hazard", "x"}, {"source", "round"}, {"text", ""}};
        REQUIRE(start()->book->enter(finding).ok());
        key = load_kiosk_key(data + "/kiosk.key").value();
    }
    std::unique_ptr<OpenSite> start() {
        auto site = open();
        if (!site) FAIL(site.error().sentence());
        return std::move(site).value();
    }
    // Times of a file system may go in steps of some milliseconds: nobody is as quick as a test.
    void meddle(const char* sql) {
        std::this_thread::sleep_for(std::chrono::milliseconds(30));
        REQUIRE(open_database(data).value()->execute(sql).ok());
    }
    std::string mark() const { return data + "/" + kClosingMark; }
    KioskKey key;
};

}  // namespace

TEST_CASE("a state that was altered after an orderly stop holds the machines at the next start") {
    for (const char* sql : kMarkMeddlings) {
        CAPTURE(std::string(sql));
        LeftSite example;
        CHECK(is_as_left(example.data, example.key));
        example.meddle(sql);
        CHECK_FALSE(is_as_left(example.data, example.key));
        CHECK_FALSE(example.start()->world().ledger_holds());
        CHECK_FALSE(example.start()->world().ledger_holds());
        CHECK(run("ledger rebuild --data " + example.data).code == 0);
        CHECK(example.start()->world().ledger_holds());
        CHECK(is_as_left(example.data, example.key));
    }
}

TEST_CASE("an old mark, another key's, none, and times set back do not hide it") {
    LeftSite example;
    const std::string file = example.data + "/holdpin.db";
    const std::string before = read_file(example.mark()).value();
    const auto written = fs::last_write_time(file);
    example.meddle("UPDATE s_finding SET open=0");
    fs::last_write_time(file, written);
    REQUIRE(write_file(example.mark(), before).ok());
    CHECK_FALSE(is_as_left(example.data, example.key));
    const KioskKey other = kiosk_key_of(Bytes(32, 7)).value();
    REQUIRE(keep_closing_mark(example.data, other).ok());
    CHECK(is_as_left(example.data, other));
    CHECK_FALSE(is_as_left(example.data, example.key));
    fs::remove(example.mark());
    CHECK_FALSE(is_as_left(example.data, example.key));
    CHECK_FALSE(example.start()->world().ledger_holds());
}

TEST_CASE("a log laid beside the data file does not hide it") {
    LeftSite example;
    example.meddle("UPDATE s_finding SET open=0");
    REQUIRE(keep_closing_mark(example.data, example.key).ok());  // as if nothing had been altered
    CHECK(example.start()->world().ledger_holds());
    REQUIRE(write_file(example.data + "/holdpin.db-wal", "x").ok());
    CHECK_FALSE(example.start()->world().ledger_holds());
}

TEST_CASE("a look at the records, a copied folder and a restart leave no doubt behind") {
    LeftSite example;
    CHECK(run("ledger check --data " + example.data + " --seal-copy ''").code == 0);
    CHECK(is_as_left(example.data, example.key));
    example.start();
    CHECK(is_as_left(example.data, example.key));
    fs::copy(example.data, example.temp / "moved", fs::copy_options::recursive);
    example.data = example.temp / "moved";
    CHECK_FALSE(is_as_left(example.data, example.key));
    CHECK(example.start()->world().ledger_holds());
    CHECK(is_as_left(example.data, example.key));
}
