#include "cli/site_data.hpp"

#include <doctest/doctest.h>

#include <sys/stat.h>

#include "example_site.hpp"
#include "records/fold.hpp"
#include "records/records.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

int mode_of(const std::string& path) {
    struct stat found {};
    REQUIRE(::stat(path.c_str(), &found) == 0);
    return static_cast<int>(found.st_mode & 0777);
}

std::vector<Entry> entries_of(OpenSite& site) {
    std::vector<Entry> entries;
    const auto done = site.ledger->each(1, static_cast<std::int64_t>(site.ledger->size()),
                                        [&](const Entry& entry) -> Result<void> {
                                            entries.push_back(entry);
                                            return {};
                                        });
    REQUIRE(done.ok());
    return entries;
}

}  // namespace

TEST_CASE("init makes a whole data directory whose secrets only the owner can read") {
    ExampleSite example;
    const auto report = example.init();
    REQUIRE_MESSAGE(report.ok(), report.error().sentence());
    CHECK(report.value().example);
    CHECK(report.value().people == 14);
    CHECK(report.value().machines == 5);
    CHECK(report.value().first_pin.empty());
    CHECK(mode_of(example.data) == 0700);
    CHECK(mode_of(example.data + "/kiosk.key") == 0600);
    CHECK(mode_of(example.data + "/pepper") == 0600);
    CHECK(fs::exists(example.data + "/site/site.toml"));
    CHECK(example.temp.items() == 1);
}

TEST_CASE("the ledger begins with its opening, the content and every person and machine") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    auto opened = example.open();
    REQUIRE_MESSAGE(opened.ok(), opened.error().sentence());
    OpenSite& site = *opened.value();
    CHECK(site.adopted.empty());
    std::map<std::string, int> kinds;
    const auto entries = entries_of(site);
    for (const Entry& entry : entries) ++kinds[entry.kind];
    CHECK(entries[0].kind == "ledger-opened");
    CHECK(entries[0].data["public_key"].get<std::string>().size() == 64);
    CHECK(entries[1].kind == "content-adopted");
    CHECK(entries[1].data["items"].size() == site.content.pack.digests.size());
    CHECK(kinds["person-enrolled"] == 14);
    CHECK(kinds["machine-enrolled"] == 5);
    CHECK(kinds["pin-issued"] == 14);
    CHECK(kinds["room-set"] == 1);
}

TEST_CASE("no entry holds a name or a word about a person") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    auto site = example.open();
    REQUIRE(site.ok());
    std::string bodies;
    for (const Entry& entry : entries_of(*site.value())) bodies += entry.data.dump();
    for (const Person& person : site.value()->content.site.people) {
        CAPTURE(person.name);
        CHECK(bodies.find(person.name) == std::string::npos);
        if (!person.competence.empty()) CHECK(bodies.find(person.competence) == std::string::npos);
        CHECK(bodies.find(person.example_pin) == std::string::npos);
    }
}

TEST_CASE("names are known after opening, and the example PINs open") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    auto site = example.open();
    REQUIRE(site.ok());
    const auto person = person_with_badge(*site.value()->db, "H-1042");
    REQUIRE(person.ok());
    REQUIRE(person.value());
    CHECK(person.value()->name == "R. Okafor-Lind");
    const auto check = site.value()->pins->check("p-okafor-lind", "759201", kExampleStart);
    REQUIRE(check.ok());
    CHECK(check.value().answer == PinAnswer::right);
}

TEST_CASE("training that people bring along is counted back from the day of init") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    auto site = example.open();
    REQUIRE(site.ok());
    const auto topics = topics_of(*site.value()->db, "p-okafor-lind");
    REQUIRE(topics.ok());
    CHECK_FALSE(topics.value().empty());
    for (const Entry& entry : entries_of(*site.value())) {
        if (entry.kind != "evaluated" || entry.data["person"] != "p-okafor-lind") continue;
        // 120 days before 2026-11-25.
        CHECK(entry.data["on"] == "2026-07-28");
        CHECK(entry.by == std::vector<std::string>{"p-nowak-silva"});
    }
    const auto permission =
        authorisation_of(*site.value()->db, "p-castellan-ito", "ride-on-scrubber-lp");
    REQUIRE(permission.ok());
    REQUIRE(permission.value());
    CHECK(permission.value()->rooms == std::vector<std::string>{"dock-hall"});
}

TEST_CASE("tailpipe tests that machines bring along are counted back from the day of init") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    auto site = example.open();
    REQUIRE(site.ok());
    std::map<std::string, nlohmann::json> tests;
    for (const Entry& entry : entries_of(*site.value())) {
        if (entry.kind == "tailpipe-tested") tests[entry.data["machine"]] = entry.data;
    }
    REQUIRE(tests.size() == 3);
    CHECK_FALSE(tests.contains("LT-22"));
    // 30 days before 2026-11-25.
    CHECK(tests["SW-14"] ==
          nlohmann::json{{"machine", "SW-14"}, {"co_lmin", "4.0"}, {"on", "2026-10-26"}});
}

TEST_CASE("a real site lets in only its first supervisor, with a PIN that must be changed") {
    ExampleSite example;
    example.source = example.real_copy();
    const auto report = example.init();
    REQUIRE_MESSAGE(report.ok(), report.error().sentence());
    CHECK(report.value().first_name == "A. Brandt");
    CHECK(report.value().first_pin.size() == 6);
    auto site = example.open();
    REQUIRE(site.ok());
    const auto supervisor = site.value()->pins->find("p-brandt");
    REQUIRE(supervisor.ok());
    REQUIRE(supervisor.value());
    CHECK(supervisor.value()->must_change);
    CHECK_FALSE(site.value()->pins->find("p-okafor-lind").value());
}

TEST_CASE("init refuses a folder that holds anything and leaves nothing half done") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    const auto again = example.init();
    REQUIRE_FALSE(again.ok());
    CHECK(again.error().kind == ErrorKind::refused);
    CHECK(example.temp.items() == 1);
    CHECK(example.open().ok());
}

TEST_CASE("a site with a fault is not set up, and every fault is told") {
    ExampleSite example;
    example.source = example.changed_copy("bad", "start = \"06:00\"", "start = \"26:00\"");
    const auto report = example.init();
    REQUIRE_FALSE(report.ok());
    CHECK(report.error().what.find("site.toml:") != std::string::npos);
    CHECK_FALSE(fs::exists(example.data));
    CHECK(example.temp.items() == 1);  // the copy
}

TEST_CASE("folding all entries again gives the state that was folded as they came") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    auto site = example.open();
    REQUIRE(site.ok());
    const auto before = state_digest(*site.value()->db);
    REQUIRE(site.value()->book->rebuild().ok());
    CHECK(before.value() == state_digest(*site.value()->db).value());
}

TEST_CASE("a folder that is no site is absent") {
    ExampleSite example;
    const auto opened = example.open();
    REQUIRE_FALSE(opened.ok());
    CHECK(opened.error().kind == ErrorKind::absent);
}

TEST_CASE("a site in memory has the same entries as one on the disk") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    auto on_disk = example.open();
    REQUIRE(on_disk.ok());
    Loaded loaded = load_content(example.dirs.content, example.dirs.assets, example.source);
    REQUIRE(loaded.ok());
    auto in_memory = in_memory_site(std::move(loaded), example.clock, example.random);
    REQUIRE(in_memory.ok());
    CHECK(in_memory.value()->ledger->size() == on_disk.value()->ledger->size());
    CHECK(in_memory.value()->data_dir.empty());
}
