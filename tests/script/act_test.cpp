#include "script/act.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

namespace {

Script read(std::string_view text, Faults& faults) { return read_script("s.toml", text, faults); }

}  // namespace

TEST_CASE("a script is read with its start, its size and its acts in order") {
    Faults faults;
    const Script script = read(R"(
site = "../sites/example"
start = "2026-11-25T05:40"
language = "es"
units = "us"
size = [800, 1280]
[[act]]
sign_on = "H-1042"
[[act]]
walk = { except = { brake = "creeps" }, hours = "1290" }
[[act]]
wait = "01:20"
)",
                               faults);
    REQUIRE(faults.empty());
    CHECK(script.date == Date{2026, 11, 25});
    CHECK(script.minute_of_day == 340);
    CHECK(script.width == 800);
    CHECK(script.units == "us");
    REQUIRE(script.acts.size() == 3);
    CHECK(script.acts[0].verb == Verb::sign_on);
    CHECK(script.acts[0].line == 8);
    CHECK(script.acts[1].pairs.front().value == "creeps");
    CHECK(script.acts[1].values.at("hours") == "1290");
    CHECK(script.acts[2].minutes == 80);
    CHECK(script.acts[2].number == 3);
}

TEST_CASE("readings are given in the order in which they are written") {
    Faults faults;
    const Script script = read(
        "start = \"2026-11-25T05:40\"\n[[act]]\nanswer = { tag = \"none\", brake = \"holds\" }\n",
        faults);
    REQUIRE(faults.empty());
    REQUIRE(script.acts.front().pairs.size() == 2);
    CHECK(script.acts.front().pairs[0].name == "tag");
}

TEST_CASE("all faults of a script are reported at once, with their lines") {
    Faults faults;
    read(R"(
start = "tomorrow"
[[act]]
tapp = "x"
[[act]]
tap = "x"
type = "y"
[[act]]
wait = "20"
[[act]]
quiz = "perhaps"
[[act]]
power_cut = false
)",
         faults);
    std::vector<int> lines;
    for (const Fault& fault : faults) lines.push_back(fault.line);
    CHECK(lines == std::vector<int>{2, 4, 5, 9, 11, 13});
    CHECK(faults[1].mend == "did you mean \"tap\"?");
}

TEST_CASE("a script without a start or without acts is a fault") {
    Faults faults;
    read("language = \"en\"\n", faults);
    CHECK(faults.size() == 2);
}

TEST_CASE("units that nobody knows are a fault") {
    Faults faults;
    read("start = \"2026-11-25T05:40\"\nunits = \"imperial\"\n[[act]]\ntap = \"x\"\n", faults);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].line == 2);
}

TEST_CASE("every verb has a name of its own") {
    for (int i = 0; i <= static_cast<int>(Verb::picture); ++i) {
        CHECK_FALSE(name_of(static_cast<Verb>(i)).empty());
    }
}
