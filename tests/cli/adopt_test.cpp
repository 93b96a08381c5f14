#include <doctest/doctest.h>

#include <algorithm>

#include "cli/site_data.hpp"
#include "cli/site_facts.hpp"
#include "example_site.hpp"
#include "records/records.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

bool has(const std::vector<std::string>& list, const std::string& wanted) {
    return std::find(list.begin(), list.end(), wanted) != list.end();
}

Result<std::vector<std::string>> adopt(ExampleSite& example, const std::string& from,
                                       const std::vector<std::string>& renamed = {}) {
    return adopt_dir(example.data, from, example.dirs, example.clock, example.random, "", renamed);
}

constexpr const char* kOldName = "name = \"R. Okafor-Lind\"";
constexpr const char* kNewName = "name = \"T. Marlowe-Reyes\"";

void leave(OpenSite& site, const char* kind) {
    REQUIRE(site.book->enter({kind, {"p-brandt"}, "", 0, {{"person", "p-okafor-lind"}}}).ok());
}

}  // namespace

TEST_CASE("adopting the same site again changes nothing and enters nothing") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    const auto changes = adopt(example, example.source);
    REQUIRE_MESSAGE(changes.ok(), changes.error().sentence());
    CHECK(changes.value().empty());
}

TEST_CASE("a changed person of the site is enrolled again under the same id") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    const auto changes =
        adopt(example, example.changed_copy("next", "badge = \"H-1042\"", "badge = \"H-9042\""));
    REQUIRE_MESSAGE(changes.ok(), changes.error().sentence());
    CHECK(changes.value() == std::vector<std::string>{"person/p-okafor-lind"});
    auto site = example.open();
    REQUIRE(site.ok());
    CHECK(person_with_badge(*site.value()->db, "H-9042").value()->id == "p-okafor-lind");
    CHECK_FALSE(person_with_badge(*site.value()->db, "H-1042").value());
}

TEST_CASE("an id goes to nobody with another name, and the old site stays") {
    for (const bool has_left : {false, true}) {
        CAPTURE(has_left);
        ExampleSite example;
        REQUIRE(example.init().ok());
        if (has_left) leave(*example.open().value(), "person-left");
        const auto changes = adopt(example, example.changed_copy("next", kOldName, kNewName));
        REQUIRE_FALSE(changes.ok());
        CHECK(changes.error().kind == ErrorKind::refused);
        const std::string sentence = changes.error().sentence();
        CHECK(sentence.find("T. Marlowe-Reyes") != std::string::npos);
        CHECK(sentence.find("--renamed p-okafor-lind") != std::string::npos);
        auto site = example.open();
        REQUIRE(site.ok());
        CHECK(site.value()->adopted.empty());
        CHECK(person_with(*site.value()->db, "p-okafor-lind").value()->name == "R. Okafor-Lind");
    }
}

TEST_CASE("the same person under a new name keeps the id where it is said") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    const std::string next = example.changed_copy("next", kOldName, kNewName);
    const auto wrong = adopt(example, next, {"p-okafor-lind", "p-brandt"});
    REQUIRE_FALSE(wrong.ok());
    CHECK(wrong.error().sentence().find("leave out --renamed p-brandt") != std::string::npos);
    const auto changes = adopt(example, next, {"p-okafor-lind"});
    REQUIRE_MESSAGE(changes.ok(), changes.error().sentence());
    CHECK(has(changes.value(), "person/p-okafor-lind"));
    auto site = example.open();
    REQUIRE(site.ok());
    CHECK(person_with(*site.value()->db, "p-okafor-lind").value()->name == "T. Marlowe-Reyes");
    Ledger& ledger = *site.value()->ledger;
    const Entry last = ledger.at(static_cast<std::int64_t>(ledger.size())).value();
    REQUIRE(last.kind == "person-enrolled");
    CHECK(last.data.at("renamed") == true);
}

TEST_CASE("the id of somebody who was erased is refused, under whatever name") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    leave(*example.open().value(), "person-erased");
    const auto changes = adopt(example, example.source, {"p-okafor-lind"});
    REQUIRE_FALSE(changes.ok());
    CHECK(changes.error().sentence().find("was erased") != std::string::npos);
}

TEST_CASE("a name that was changed in the site's file is told at a start and not taken over") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    const std::string file = example.data + "/site/people.toml";
    std::string text = read_file(file).value();
    const auto at = text.find(kOldName);
    REQUIRE(at != std::string::npos);
    text.replace(at, std::string(kOldName).size(), kNewName);
    REQUIRE(write_file(file, text).ok());
    auto site = example.open();
    REQUIRE(site.ok());
    Database& db = *site.value()->db;
    CHECK(person_with(db, "p-okafor-lind").value()->name == "R. Okafor-Lind");
    const auto faults = taken_ids(db, site.value()->content.site.people);
    REQUIRE(faults.ok());
    REQUIRE(faults.value().size() == 1);
    CHECK(faults.value().front().where == "p-okafor-lind");
}

TEST_CASE("a changed pack is taken over, kept beside the data and told item by item") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    const std::string pack = example.temp / "pack";
    fs::copy(example.dirs.content, pack, fs::copy_options::recursive);
    const std::string guide = pack + "/guides/wear-parts.toml";
    std::string text = read_file(guide).value();
    const auto at = text.find("title = { en = \"");
    REQUIRE(at != std::string::npos);
    text.insert(at + 16, "All ");
    REQUIRE(write_file(guide, text).ok());
    const auto changes = adopt(example, pack);
    REQUIRE_MESSAGE(changes.ok(), changes.error().sentence());
    CHECK(changes.value() == std::vector<std::string>{"guide/wear-parts"});
    CHECK(resolved({}, example.data).content == example.data + "/content");
    auto site = open_site(example.data, resolved({}, example.data), example.clock, example.random,
                          PinCost::least);
    REQUIRE(site.ok());
    CHECK(site.value()->adopted.empty());
    CHECK(site.value()->content.pack.guide("wear-parts")->title.in("en").starts_with("All "));
}

TEST_CASE("content that changed under a site is adopted when the site is opened") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    const std::string file = example.data + "/site/site.toml";
    std::string text = read_file(file).value();
    const auto at = text.find("airflow_m3h = 12000.0");
    REQUIRE(at != std::string::npos);
    text.replace(at, 21, "airflow_m3h = 11000.0");
    REQUIRE(write_file(file, text).ok());
    auto site = example.open();
    REQUIRE(site.ok());
    CHECK(has(site.value()->adopted, "site/ash-lane"));
    Ledger& ledger = *site.value()->ledger;
    const auto last = ledger.at(static_cast<std::int64_t>(ledger.size()));
    CHECK(last.value().kind == "content-adopted");
    CHECK(last.value().data["items"].size() == 1);
    CHECK(unasked_change(*site.value()->db).value() == last.value().n);
}

TEST_CASE("people put into the site's file by hand are an unasked change, adopted ones are none") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    const std::string people = example.data + "/site/people.toml";
    REQUIRE(write_file(people, read_file(people).value() +
                                   "\n[[person]]\nid = \"p-new\"\nname = \"N. New\"\n"
                                   "badge = \"H-9001\"\nlanguage = \"en\"\n"
                                   "duties = [\"supervisor\"]\n").ok());
    {
        auto site = example.open();
        REQUIRE_MESSAGE(site.ok(), site.error().sentence());
        CHECK(unasked_change(*site.value()->db).value() != 0);
    }
    ExampleSite other;
    REQUIRE(other.init().ok());
    REQUIRE(adopt(other, other.changed_copy("next", "airflow_m3h = 12000.0",
                                            "airflow_m3h = 11000.0")).ok());
    auto site = other.open();
    REQUIRE(site.ok());
    CHECK(unasked_change(*site.value()->db).value() == 0);
}

TEST_CASE("another site, or one with a fault, is not taken over and the old one stays") {
    ExampleSite example;
    REQUIRE(example.init().ok());
    const auto other =
        adopt(example, example.changed_copy("other", "id = \"ash-lane\"", "id = \"elm-lane\""));
    REQUIRE_FALSE(other.ok());
    CHECK(other.error().kind == ErrorKind::refused);
    const auto bad = example.changed_copy("bad", "language = \"es\"", "language = \"xx\"");
    CHECK_FALSE(adopt(example, bad).ok());
    auto site = example.open();
    REQUIRE(site.ok());
    CHECK(site.value()->content.site.id == "ash-lane");
    CHECK(site.value()->adopted.empty());
}
