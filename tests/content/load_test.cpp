// Loading as a whole: a pack without a fault, and files attacked everywhere at once.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "base/text.hpp"
#include "content/content.hpp"
#include "content/digest.hpp"
#include "sample.hpp"

using namespace holdpin;

namespace {

Loaded load(const Files& pack, const Files& site = sample::site()) {
    return load_content(pack, sample::assets(), site);
}

// The text with line `number` (from 1) replaced.
std::string with_line(const std::string& text, std::size_t number, const std::string& line) {
    auto parts = split(text, '\n');
    parts[number - 1] = line;
    return joined(parts, "\n");
}

// Calls `act` for each line of the form "key = value" of each file.
template <typename Act>
void for_each_key_line(const Files& files, Act act) {
    for (const auto& [name, text] : files) {
        const auto parts = split(text, '\n');
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const auto equals = parts[i].find(" = ");
            if (equals != std::string::npos) act(name, i + 1, parts[i].substr(0, equals), parts[i]);
        }
    }
}

void check_refused(const Loaded& loaded) {
    CHECK_FALSE(loaded.ok());
    // Nothing by halves.
    CHECK(loaded.content.pack.rounds.empty());
    CHECK(loaded.content.site.people.empty());
    CHECK(loaded.frozen.empty());
}

}  // namespace

TEST_CASE("a pack and a site without faults are loaded with everything in them") {
    const Loaded loaded = load(sample::pack());
    REQUIRE_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
    const Pack& pack = loaded.content.pack;
    REQUIRE(pack.round("mill-before"));
    const Round& round = *pack.round("mill-before");
    CHECK(round.point_count() == 3);
    CHECK(round.find("wheel")->readings[2].outcome == Outcome::stop);
    CHECK(round.find("wheel")->readings[2].sheet == "crush");
    CHECK(round.find("wheel")->hazard == Hazard::guard);
    CHECK(round.find("hours")->number->max_tenths == 999999);
    CHECK(round.find("hours")->number->low_tenths == 15);
    CHECK(round.find("hours")->number->check == NumberCheck::not_below_last);
    CHECK(round.stations[1].engine);
    CHECK(pack.guide("look-first")->steps[1].warnings[0].probability == Probability::will);
    CHECK(pack.guide("look-first")->steps[1].body_in_zone);
    CHECK(pack.strings.at("floor.plate.held").in("es") == "{machine} está retenida");
    CHECK(pack.footing("osha-147")->kind == FootingKind::law);
    CHECK(pack.grants({Duty::evaluating}, Right::evaluate));
    const Site& site = loaded.content.site;
    CHECK(site.policy.pin_digits == 6);
    CHECK(site.policy.round_stale_minutes == 30);
    CHECK(site.shifts[0].end_min == 1440);
    CHECK(site.rooms[0].volume_m3 == 900.5);
    CHECK(site.rooms[0].airflow_m3h == 1200);
    CHECK(site.machines[0].hours_tenths == 12846);
    CHECK(site.machines[0].inspection_due == Date{2027, 3, 1});
    CHECK(loaded.content.person("p-luz")->example_pin == "407193");
    CHECK(site.records[0].signed_by == "p-sol");
}

TEST_CASE("a pack can be loaded without a site") {
    const LoadedPack loaded = load_pack(sample::pack(), sample::assets());
    REQUIRE_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
    CHECK(loaded.pack.classes.size() == 1);
    CHECK_FALSE(loaded.frozen.contains("site/shed"));
}

TEST_CASE("a value of the wrong type is found on its line, whichever key it is") {
    const auto attack = [](const Files& files, bool is_site) {
        for_each_key_line(files, [&](const std::string& name, std::size_t line,
                                     const std::string& key, const std::string&) {
            Files broken = files;
            broken[name] = with_line(broken[name], line, key + " = 07:32:00");
            const Loaded loaded = is_site ? load(sample::pack(), broken) : load(broken);
            CHECK_MESSAGE(sample::has_at(loaded.faults, name, static_cast<int>(line)),
                          name << ":" << line << " " << key << "\n"
                               << sample::lines(loaded.faults));
        });
    };
    attack(sample::pack(), false);
    attack(sample::site(), true);
}

TEST_CASE("a key that nobody knows is found beside every other key") {
    const auto attack = [](const Files& files, bool is_site) {
        for_each_key_line(files, [&](const std::string& name, std::size_t line, const std::string&,
                                     const std::string& whole) {
            if (name.starts_with("strings/")) return;  // there every key is a new text
            Files broken = files;
            broken[name] = with_line(broken[name], line, whole + "\nno_such_key = true");
            const Loaded loaded = is_site ? load(sample::pack(), broken) : load(broken);
            CHECK(sample::has(loaded.faults, name, "key \"no_such_key\" is not known here"));
            CHECK(sample::has_at(loaded.faults, name, static_cast<int>(line) + 1));
        });
    };
    attack(sample::pack(), false);
    attack(sample::site(), true);
}

TEST_CASE("a missing line is a fault or has a default, and never loads by halves") {
    for_each_key_line(sample::pack(), [](const std::string& name, std::size_t line,
                                         const std::string& key, const std::string&) {
        Files broken = sample::pack();
        broken[name] = with_line(broken[name], line, "");
        const Loaded loaded = load(broken);
        if (!loaded.ok()) check_refused(loaded);
        const bool is_text = key == "id" || key == "action" || key == "footing" || key == "label";
        if (is_text) CHECK_FALSE(loaded.ok());
    });
}

TEST_CASE("a file that ends anywhere is refused or whole, and nothing falls over") {
    for (const std::string name : {"rounds/mill-before.toml", "classes/mill.toml",
                                   "rulesets/footings.toml", "strings/floor.toml"}) {
        const std::string whole = sample::pack().at(name);
        for (std::size_t length = 0; length < whole.size(); length += 3) {
            Files broken = sample::pack();
            broken[name].resize(length);
            const Loaded loaded = load(broken);
            if (!loaded.ok()) check_refused(loaded);
        }
    }
}

TEST_CASE("each text that lacks a language is found") {
    for_each_key_line(sample::pack(), [](const std::string& name, std::size_t line,
                                         const std::string&, const std::string& whole) {
        const auto spanish = whole.find(", es = \"");
        if (spanish == std::string::npos) return;
        Files broken = sample::pack();
        broken[name] = with_line(broken[name], line, whole.substr(0, spanish) + " }");
        const Loaded loaded = load(broken);
        CHECK(sample::has(loaded.faults, name, "has no Spanish; add es = \"…\""));
        CHECK(sample::has_at(loaded.faults, name, static_cast<int>(line)));
    });
}

TEST_CASE("all faults of all files are told at once, in order") {
    Files pack = sample::pack();
    pack =
        sample::with(pack, "rounds/mill-before.toml", "outcome = \"stop\"", "outcome = \"halt\"");
    pack =
        sample::with(pack, "rounds/mill-before.toml", "topic = \"looking\"", "topic = \"loking\"");
    pack = sample::with(pack, "guides/look-first.toml", "quiz = ", "quizz = ");
    pack = sample::with(pack, "classes/mill.toml", "valid_months = 36", "valid_months = 0");
    pack["rulesets/duties.toml"] = "not toml at all";
    pack["drills/x.toml"] = "";
    const Files site = sample::with(sample::site(), "site.toml", "Europe/Madrid", "Europe/Nowhere");
    const Loaded loaded = load(pack, site);
    check_refused(loaded);
    const Faults& faults = loaded.faults;
    CHECK(sample::has(faults, "rounds/mill-before.toml", "\"outcome\" cannot be \"halt\""));
    CHECK(sample::has(faults, "rounds/mill-before.toml", "did you mean \"looking\"?"));
    CHECK(sample::has(faults, "guides/look-first.toml", "did you mean \"quiz\"?"));
    CHECK(sample::has(faults, "guides/look-first.toml", "\"quiz\" is missing"));
    CHECK(sample::has(faults, "classes/mill.toml", "write a whole number from 1 to 120"));
    CHECK(sample::has(faults, "rulesets/duties.toml", "this is no TOML"));
    CHECK(sample::has(faults, "drills/x.toml", "no content is read from this folder"));
    CHECK(sample::has(faults, "site.toml", "there is no time zone \"Europe/Nowhere\""));
    for (std::size_t i = 1; i < faults.size(); ++i) CHECK(faults[i - 1].file <= faults[i].file);
}

TEST_CASE("missing rulesets and a missing site head are faults") {
    const Loaded loaded = load({}, {});
    check_refused(loaded);
    CHECK(sample::has(loaded.faults, "rulesets/footings.toml", "the file is missing"));
    CHECK(sample::has(loaded.faults, "rulesets/holds.toml", "the file is missing"));
    CHECK(sample::has(loaded.faults, "rulesets/duties.toml", "the file is missing"));
    CHECK(sample::has(loaded.faults, "site.toml", "the file is missing"));
}

TEST_CASE("a fault says file, line, column, what and how to mend it") {
    const Fault fault{"rounds/x.toml", 41, 9, "reading \"creeps\" has no finding", "write one"};
    CHECK(fault.sentence() == "rounds/x.toml:41:9: reading \"creeps\" has no finding; write one");
    CHECK(Fault{"a.toml", 0, 0, "the file is missing", ""}.sentence() ==
          "a.toml: the file is missing");
}

TEST_CASE("a site names its employer and the folders for binders, or neither") {
    const Loaded plain = load(sample::pack(), sample::site());
    CHECK(plain.content.site.employer.empty());
    CHECK(plain.content.site.binder_folders.empty());
    Files site = sample::with(sample::site(), "site.toml", "example = true",
                              "employer = \"Mill Works\"\nexample = true");
    site = sample::with(site, "site.toml", "[policy]",
                        "[binder]\nfolders = [\"/srv/binders\", \"/mnt/stick one\"]\n[policy]");
    const Loaded loaded = load(sample::pack(), site);
    CHECK_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
    CHECK(loaded.content.site.employer == "Mill Works");
    const std::vector<std::string> folders{"/srv/binders", "/mnt/stick one"};
    CHECK(loaded.content.site.binder_folders == folders);
    CHECK(frozen_site(loaded.content.site) != frozen_site(plain.content.site));
}

TEST_CASE("the shipped pack and its example site have no fault") {
    const std::string root = HOLDPIN_TEST_SOURCE_DIR;
    const Loaded loaded =
        load_content(root + "/content", root + "/assets", root + "/content/sites/example");
    CHECK_MESSAGE(loaded.ok(), sample::lines(loaded.faults));
}
