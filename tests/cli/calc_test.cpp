// The estimates as they are called: what they print, and that nonsense ends with 2 and a sentence.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "support/extent.hpp"
#include "support/shell.hpp"

using namespace holdpin;

namespace {

// `from`: what of the two streams is read.
Ran calc(const std::string& words, const char* from = "2>/dev/null") {
    const std::string line = std::string(HOLDPIN_PROGRAM) + " calc " + words + " " + from;
    return run_shell(line);
}

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

struct Plausible {
    const char* name;
    const char* keys;
    const char* results;  // names, each with a blank after it
    const char* number;   // a key that takes a number, to be spoilt
};

constexpr Plausible kPlausible[] = {
    {"room-air",
     "airflow_m3h=2000 source_lmin=16 start_ppm=2 outdoor_ppm=1 mixing=2 minutes=30 limit_ppm=35",
     "end_ppm steady_ppm minutes_to_limit mean_ppm ", "volume_m3=2000"},
    {"purge", "mixing=3 from_ppm=400 to_ppm=25", "minutes ", "ach=2"},
    {"uptake", "minutes=60 activity=light altitude_m=200 height_m=1.8 mass_kg=80 sex=male",
     "end_percent equilibrium_percent half_time_min ", "ppm=100"},
    {"exposure", "2@150 2@75 4@50",
     "twa_8h_ppm worst_15min_ppm share_osha share_niosh share_eu share_acgih extended_osha_ppm ",
     "shift_h=10"},
    {"lp-vapour", "", "absolute_kpa gauge_kpa liquid_kg_m3 ", "temperature_c=20"},
    {"lp-leak", "temperature_c=20 room_m3=500",
     "vapour_m3 percent_of_lower_limit volume_at_lower_limit_m3 ", "mass_kg=9"},
    {"lp-endurance", "power_kw=10 efficiency=0.25", "hours ", "mass_kg=15"},
    {"cylinder-due", "made=2013-03 stamps=2020-05:visual", "due ", "visual_years=5"},
    {"battery-air", "gassing_a=30 standard=2014", "airflow_m3h opening_cm2 ", "cells=24"},
    {"mix", "convention=in-parts tank_l=75", "concentrate_l percent ", "ratio=64"},
    {"noise", "2@95 rule=niosh", "dose_percent twa_dba ", "intervals=4@88"},
    {"vibration", "2@0.6 kind=whole-body axis=x", "a8_ms2 points hours_to_action hours_to_limit ",
     "intervals=1@0.9"},
    {"slope", "limit_percent=12", "degrees percent within ", "percent=10"},
    {"prop-load",
     "arm_m=0.8 prop_m=0.6 prop_angle_deg=60 pin_mm=16 pins=2 shear_planes=2 yield_mpa=235",
     "force_per_pin_n shear_mpa factor ", "hopper_kg=180"},
    {"run-plan",
     "flow_lmin=2.5 recovery_l=100 pickup_percent=90 width_m=0.8 speed_kmh=5 overlap_percent=10 "
     "area_m2=9000",
     "minutes_per_fill fills drains m2_per_h hours ", "solution_l=100"},
};

std::string words_of(const Plausible& each) {
    return std::string(each.name) + " " + each.keys + " " + each.number;
}

// The same with another value in the spoilt key; where hours stand, the level is spoilt.
std::string spoilt(const Plausible& each, const std::string& value) {
    const std::string number = each.number;
    const std::size_t at = number.find('@');
    const std::size_t end = at == std::string::npos ? number.find('=') : at;
    return std::string(each.name) + " " + each.keys + " " + number.substr(0, end + 1) + value;
}

void check_refused(const std::string& words) {
    CAPTURE(words);
    const Ran ran = calc(words, "2>&1 >/dev/null");
    CHECK(ran.code == 2);
    CHECK(ran.said.size() > 20);
    CHECK(says(ran.said, ";"));  // what is wrong; how to mend it
    CHECK(calc(words).said.empty());
}

}  // namespace

TEST_CASE("every estimate answers plausible figures, as text and as one flat object") {
    for (const Plausible& each : kPlausible) {
        CAPTURE(each.name);
        CHECK(calc(words_of(each)).code == 0);
        const Ran ran = calc(words_of(each) + " --json");
        REQUIRE(ran.code == 0);
        const auto object = nlohmann::json::parse(ran.said);
        const std::string results = each.results;
        for (std::size_t at = 0; at < results.size(); at = results.find(' ', at) + 1) {
            const std::string name = results.substr(at, results.find(' ', at) - at);
            CAPTURE(name);
            REQUIRE(object.contains(name));
            CHECK((object[name].is_number() || name == "due"));
        }
    }
}

TEST_CASE("nonsense in any estimate ends with 2 and a sentence that says how to mend it") {
    // Each is a start of the program.
    const auto step = static_cast<std::size_t>(goes_a_part() ? kPart : 1);
    for (std::size_t i = 0; i < std::size(kPlausible); i += step) {
        const Plausible& each = kPlausible[i];
        for (const char* value :
             {"-7777", "nan", "inf", "1e30", "1e999", "abc", "5ft", "", "1,5"}) {
            check_refused(spoilt(each, value));
        }
        check_refused(words_of(each) + " frobnicate=3");
        check_refused(words_of(each) + " frobnicate");
    }
    check_refused("room-aer");
    check_refused("");
    check_refused("--list purge");
    CHECK(calc("slope percent=10 --units furlongs").code == 2);
}

TEST_CASE("an unknown key or name is answered with the one that was meant") {
    CHECK(says(calc("room-aer", "2>&1").said, "did you mean room-air?"));
    CHECK(says(calc("lp-vapour temperature_f=70", "2>&1").said, "did you mean temperature_c?"));
    CHECK(says(calc("room-air volume_ft3=3000", "2>&1").said, "did you mean volume_m3?"));
}

TEST_CASE("the list names every estimate with its keys, units, defaults and source") {
    const Ran text = calc("--list");
    CHECK(text.code == 0);
    const Ran ran = calc("--list --json");
    REQUIRE(ran.code == 0);
    const auto list = nlohmann::json::parse(ran.said);
    CHECK(list.size() == std::size(kPlausible));
    for (const auto& each : list) {
        CHECK(says(text.said, each["name"].get<std::string>() + ": "));
        CHECK(says(text.said, each["source"].get<std::string>()));
        for (const auto& key : each["keys"]) CHECK(says(text.said, key["name"].get<std::string>()));
    }
    CHECK(says(text.said, "default 1"));
}

TEST_CASE("a result that touches health says what it is not, and a prop that one is never enough") {
    for (const char* name : {"room-air", "purge", "uptake", "exposure", "lp-leak", "battery-air",
                             "noise", "vibration", "prop-load"}) {
        for (const Plausible& each : kPlausible) {
            if (std::string(name) != each.name) continue;
            CAPTURE(name);
            CHECK(says(calc(words_of(each)).said, "no measurement, and no clearance to enter"));
        }
    }
    const std::string hopper =
        "prop-load hopper_kg=1 arm_m=0.1 prop_m=5 prop_angle_deg=90 pin_mm=60 yield_mpa=900";
    for (const char* pins : {" pins=1", " pins=2"}) {
        CHECK(says(calc(hopper + pins).said, "One prop is never enough"));
    }
}

TEST_CASE("text speaks the units of the site, JSON those of the names") {
    CHECK(says(calc("lp-vapour temperature_c=20").said, "kPa"));
    const std::string us = calc("lp-vapour temperature_c=20 --units us").said;
    CHECK(says(us, "psi"));
    CHECK(says(us, "lb/gal"));
    CHECK_FALSE(says(us, "kPa"));
    CHECK(calc("lp-vapour temperature_c=20 --units us --json").said ==
          calc("lp-vapour temperature_c=20 --json").said);
}
