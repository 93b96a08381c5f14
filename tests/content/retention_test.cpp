// Classes of records: read whole, frozen, and proofread as a table that takes every kind once.
#include <doctest/doctest.h>

#include "sample.hpp"

using namespace holdpin;

namespace {

constexpr const char* kName = "rulesets/retention.toml";
constexpr const char* kTable = R"toml(
[[class]]
id = "air"
name = { en = "Air", es = "Aire" }
kinds = ["air-read", "air-alarm-raised", "air-alarm-lifted",
         "heads-counted", "symptoms-reported", "symptoms-named", "tailpipe-tested", "door-set"]
from = "entry"
years = 30
purge = false
why = { en = "What you breathed.", es = "Lo que respiró." }
who = { en = "You", es = "Usted" }
footing = "common-practice"
[[class]]
id = "other"
name = { en = "Other", es = "Otros" }
kinds = ["*"]
from = "employment"
years = 3
purge = true
why = { en = "The rest.", es = "El resto." }
who = { en = "You", es = "Usted" }
footing = "common-practice"
)toml";

LoadedPack load(const std::string& from = "", const std::string& to = "") {
    Files files = sample::pack();
    files[kName] = kTable;
    if (!from.empty()) files = sample::with(files, kName, from, to);
    return load_pack(files, sample::assets());
}

}  // namespace

TEST_CASE("classes of records are read, and each kind of entry finds its own") {
    const LoadedPack loaded = load();
    REQUIRE(loaded.ok());
    REQUIRE(loaded.pack.retention.size() == 2);
    CHECK(loaded.pack.retention_of("air-read")->id == "air");
    CHECK_FALSE(loaded.pack.retention_of("air-read")->purge);
    CHECK(loaded.pack.retention_of("round-signed")->id == "other");
    CHECK(loaded.pack.retention_of("round-signed")->from_employment);
    CHECK(loaded.pack.digest("ruleset", "retention").size() == 64);
}

TEST_CASE("a pack without classes of records is whole, and nothing has a time") {
    const LoadedPack loaded = load_pack(sample::pack(), sample::assets());
    REQUIRE(loaded.ok());
    CHECK(loaded.pack.retention_of("air-read") == nullptr);
    CHECK(loaded.pack.digest("ruleset", "retention").empty());
}

TEST_CASE("another period is another digest") {
    CHECK(load().pack.digest("ruleset", "retention") !=
          load("years = 3\n", "years = 4\n").pack.digest("ruleset", "retention"));
}

TEST_CASE("faults of the classes of records are found") {
    struct Break {
        const char* from;
        const char* to;
        const char* said;
    };
    for (const Break& one : {
             Break{"purge = false", "purge = true", "readings of air are never purged"},
             Break{"[\"*\"]", "[\"air-read\"]", "kind \"air-read\" is there twice"},
             Break{"\"heads-counted\", ", "", "\"heads-counted\" tells of exposure to bad air"},
             Break{"\"symptoms-reported\", ", "", "write it beside"},
             Break{"[\"*\"]", "[\"signed-on\"]", "no class of records takes \"*\""},
             Break{"[\"air-read\"", "[\"air-seen\"", "no class of records takes \"air-read\""},
             Break{"id = \"other\"", "id = \"air\"", "class of records \"air\" is there twice"},
             Break{"years = 30", "years = 0", "\"years\" is out of range"},
             Break{"from = \"entry\"", "from = \"birth\"", "write one of entry, employment"},
             Break{"footing = \"common-practice\"", "footing = \"hearsay\"", "no footing"},
             Break{"who = { en = \"You\", es = \"Usted\" }", "", "who"},
         }) {
        CAPTURE(one.to);
        const LoadedPack loaded = load(one.from, one.to);
        CHECK_FALSE(loaded.ok());
        CHECK(sample::has(loaded.faults, kName, one.said));
    }
}

TEST_CASE("an accepted signing statement names a person, and stands in an example site only") {
    const std::string accepted = "\n[[statement]]\nperson = \"p-luz\"\nlanguages = [\"es\"]\n";
    Files site = sample::site();
    site["people.toml"] += accepted;
    const Loaded loaded = load_content(sample::pack(), sample::assets(), site);
    REQUIRE(loaded.ok());
    REQUIRE(loaded.content.site.statements.size() == 1);
    CHECK(loaded.content.site.statements[0].languages == std::vector<std::string>{"es"});
    const Files nobody = sample::with(site, "people.toml", "person = \"p-luz\"\nlanguages",
                                      "person = \"p-nemo\"\nlanguages");
    CHECK_FALSE(load_content(sample::pack(), sample::assets(), nobody).ok());
    const Files real = sample::with(site, "site.toml", "example = true", "example = false");
    CHECK(sample::has(load_content(sample::pack(), sample::assets(), real).faults, "people.toml",
                      "an accepted statement stands in a site that is no example"));
}
