#include <doctest/doctest.h>

#include <algorithm>

#include "cli/site_data.hpp"
#include "example_site.hpp"
#include "records/records.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

bool has(const std::vector<std::string>& list, const std::string& wanted) {
    return std::find(list.begin(), list.end(), wanted) != list.end();
}

Result<std::vector<std::string>> adopt(ExampleSite& example, const std::string& from) {
    return adopt_dir(example.data, from, example.dirs, example.clock, example.random);
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
