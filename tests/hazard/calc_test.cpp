#include "hazard/calc.hpp"

#include <set>

#include "base/text.hpp"
#include "near.hpp"

using namespace holdpin;

namespace {

using Words = std::vector<std::string>;

Result<std::vector<CalcValue>> asked(const std::string& line) {
    const Words words = split(line, ' ');
    const auto calc = calc_named(words.front());
    if (!calc) return calc.error();
    return calculate(*calc.value(), Words(words.begin() + 1, words.end()));
}

CalcAnswer answer(const std::string& line, std::string_view name) {
    for (const CalcValue& value : must(asked(line))) {
        if (value.key->name == name) return value.answer;
    }
    FAIL("no result " << name);
    return {};
}

double number(const std::string& line, std::string_view name) {
    const CalcAnswer found = answer(line, name);
    REQUIRE(std::holds_alternative<double>(found));
    return std::get<double>(found);
}

std::string refused(const std::string& line) {
    const auto values = asked(line);
    return values.ok() ? "" : values.error().sentence();
}

bool says(const std::string& sentence, std::string_view part) {
    return sentence.find(part) != std::string::npos;
}

const std::string kRoom = "room-air volume_m3=2000 airflow_m3h=2000 minutes=60 ";

}  // namespace

TEST_CASE("the table names fifteen estimates, each with keys, results and a source") {
    const std::set<std::string_view> wanted = {
        "room-air", "purge",        "uptake",       "exposure",    "lp-vapour",
        "lp-leak",  "lp-endurance", "cylinder-due", "battery-air", "mix",
        "noise",    "vibration",    "slope",        "prop-load",   "run-plan"};
    std::set<std::string_view> found;
    for (const Calc& calc : calcs()) {
        found.insert(calc.name);
        CHECK_FALSE(calc.keys.empty());
        CHECK_FALSE(calc.results.empty());
        CHECK_FALSE(calc.source.empty());
    }
    CHECK(found == wanted);
}

TEST_CASE("room air and purge are those of their functions") {
    // Computed (C): 61 L/min in 2 000 m³ at one air change: 1 830 ppm; 200 ppm after 6.94 min.
    const std::string room = kRoom + "source_lmin=61 limit_ppm=200";
    CHECK(near(number(room, "steady_ppm"), 1830, 0.5));
    CHECK(near(number(room, "minutes_to_limit"), 6.94, 0.005));
    CHECK(number(room, "mean_ppm") < number(room, "end_ppm"));
    // Computed (C): 400 to 25 ppm at two air changes, K 1 and 3.
    CHECK(near(number("purge ach=2 from_ppm=400 to_ppm=25", "minutes"), 83.2, 0.05));
    CHECK(near(
        number("purge volume_m3=500 airflow_m3h=1000 mixing=3 from_ppm=400 to_ppm=25", "minutes"),
        249.5, 0.05));
    // CDC MMWR 1994;43(RR-13) table S3-1, read, V=: six air changes, 99 %, 46 minutes.
    CHECK(near(number("purge ach=6 removal_percent=99", "minutes"), 46, 0.5));
    CHECK(near(number(kRoom + "source_gh=68.73", "steady_ppm"),
               number(kRoom + "source_lmin=1", "steady_ppm"), 0.05));
}

TEST_CASE("a level that is never reached has no time, and without a limit none is asked") {
    CHECK(std::holds_alternative<std::monostate>(
        answer(kRoom + "source_lmin=1 limit_ppm=100", "minutes_to_limit")));
    for (const CalcValue& value : must(asked(kRoom + "source_lmin=1"))) {
        CHECK(value.key->name != "minutes_to_limit");
    }
}

TEST_CASE("uptake and its way back meet the method note of Salt Lake City") {
    // OSHA Salt Lake Technical Center, COHb, Appendix C, read, V=.
    const std::string person = " pressure_mmhg=700 o2_percent=21 hb_g_dl=15.8 blood_l=5 ";
    CHECK(near(number("uptake find=ppm end_percent=19.58675 minutes=240 start_percent=0.75 "
                      "activity=moderate pressure_mmhg=700 hb_g_dl=15.8 blood_l=5",
                      "ppm"),
               193.7957, 0.0005));
    CHECK(near(number("uptake ppm=4 minutes=120 start_percent=19.58675 activity=rest" +
                          person.substr(0, person.size() - 1),
                      "end_percent"),
               15.0, 0.0005));
}

TEST_CASE("exposure takes its intervals bare, by their key or in one list") {
    // 29 CFR 1910.1000(d)(1)(ii), read, V=: 81.25 ppm.
    for (const char* line : {"exposure 2@150 2@75 4@50", "exposure intervals=2@150,2@75,4@50",
                             "exposure hours@ppm=2@150 intervals=2@75 interval=4@50"}) {
        CAPTURE(line);
        CHECK(near(number(line, "twa_8h_ppm"), 81.25, 1e-9));
    }
    CHECK(near(number("exposure 8@35 shift_h=12", "extended_niosh_ppm"), 17.5,
               1e-9));  // computed (C)
    CHECK(near(number("exposure 8@35", "share_niosh"), 1, 1e-9));
}

TEST_CASE("gas, cylinder and battery are those of their functions") {
    CHECK(near_share(number("lp-vapour temperature_c=20", "absolute_kpa"), 836.4, 0.001));
    CHECK(near_share(
        number("lp-leak mass_kg=9 temperature_c=20 room_m3=100", "percent_of_lower_limit"),
        number("lp-leak mass_kg=9 temperature_c=20 room_m3=100", "volume_at_lower_limit_m3"),
        1e-9));
    CHECK(near(number("lp-endurance mass_kg=15 burn_kg_h=2", "hours"), 7.5, 1e-12));
    CHECK(number("lp-endurance mass_kg=15 power_kw=10 efficiency=0.25", "hours") > 4);
    const std::string made = "cylinder-due made=2013-03";
    CHECK(std::get<std::string>(answer(made, "due")) == "2025-03");
    CHECK(std::get<std::string>(answer(made + " 2020-05:visual", "due")) == "2025-05");
    CHECK(std::get<std::string>(answer(made + " stamps=2020-05:proof", "due")) == "2030-05");
    CHECK(std::get<std::string>(answer(made + " stamp=2020-05:volumetric", "due")) == "2032-05");
    CHECK(near(
        number("battery-air cells=24 capacity_ah=500 per_100ah=6 standard=older", "airflow_m3h"),
        36, 1e-9));
    CHECK(near(number("battery-air cells=24 gassing_a=30", "airflow_m3h"), 39.6, 1e-9));
}

TEST_CASE("work is that of its functions") {
    CHECK(near(number("mix ratio=64 tank_l=65", "concentrate_l"), 1, 1e-9));
    CHECK(near(number("mix ratio=64 convention=per-water tank_l=64", "concentrate_l"), 1, 1e-9));
    CHECK(near(number("noise 4@95", "dose_percent"), 100, 1e-9));
    CHECK(near(number("noise rule=niosh 8@85", "dose_percent"), 100, 1e-9));
    CHECK(number("noise 8@79", "dose_percent") == 0);
    CHECK(near(number("vibration 3@5 kind=hand-arm", "points"), 150, 1e-9));
    CHECK(near(number("vibration 4@0.8", "hours_to_action"), 3.125, 1e-9));
    CHECK(number("slope percent=12 limit_percent=12", "within") == 1);
    CHECK(number("slope degrees=10 limit_percent=12", "within") == 0);
    CHECK(number("prop-load hopper_kg=180 arm_m=0.6 prop_m=0.6 prop_angle_deg=90 pin_mm=16 pins=1 "
                 "shear_planes=2 yield_mpa=235",
                 "force_per_pin_n") > 1765);
    CHECK(number("run-plan solution_l=100 flow_lmin=2.5 recovery_l=100 pickup_percent=90 "
                 "width_m=0.81 speed_kmh=4.8 overlap_percent=0 area_m2=3888",
                 "fills") == 2);
}

TEST_CASE("a key that is not one is refused with the nearest, a foreign unit with the right one") {
    CHECK(says(refused("lp-vapour temperature_f=70"), "did you mean temperature_c?"));
    CHECK(says(refused("room-air volume_ft3=70000"), "did you mean volume_m3?"));
    CHECK(says(refused("room-air minuts=3"), "did you mean minutes?"));
    CHECK(says(refused("lp-vapour frobnicate=3"), "temperature_c"));
    CHECK(says(refused("room-airs"), "did you mean room-air?"));
    CHECK(says(refused("lp-vapour temperature_c=70F"), "without a unit"));
    CHECK(says(refused("lp-vapour temperature_c=1,5"), "decimal point"));
    CHECK(says(refused("noise rule=oshaa 8@90"), "did you mean osha?"));
    CHECK(says(refused("noise 8h@90"), "hours"));
}

TEST_CASE("what is missing, doubled or said in two ways is refused") {
    CHECK(says(refused("lp-vapour"), "temperature_c: it is missing"));
    CHECK(says(refused("lp-vapour temperature_c=1 temperature_c=2"), "twice"));
    CHECK(says(refused("lp-vapour 20"), "no key=value"));
    CHECK(says(refused(kRoom + "source_lmin=1 source_gh=1"), "source_gh"));
    CHECK_FALSE(refused(kRoom).empty());
    CHECK_FALSE(refused("purge ach=2 volume_m3=1 from_ppm=2 to_ppm=1").empty());
    CHECK_FALSE(refused("purge ach=2 from_ppm=2").empty());
    CHECK_FALSE(refused("uptake minutes=10").empty());
    CHECK_FALSE(refused("uptake minutes=10 ppm=50 find=ppm end_percent=5").empty());
    CHECK_FALSE(refused("uptake minutes=10 ppm=50 activity=rest va_l_min=6").empty());
    CHECK_FALSE(refused("uptake minutes=10 ppm=50 height_m=1.8").empty());
    CHECK_FALSE(refused("uptake minutes=10 ppm=50 pressure_mmhg=760 altitude_m=0").empty());
    CHECK_FALSE(refused("exposure shift_h=8").empty());
    CHECK_FALSE(refused("slope").empty());
    CHECK_FALSE(refused("slope percent=1 degrees=1").empty());
    CHECK_FALSE(refused("lp-endurance mass_kg=1 power_kw=1").empty());
    CHECK_FALSE(refused("battery-air cells=2 capacity_ah=100").empty());
    CHECK_FALSE(refused("battery-air cells=2.5 gassing_a=3").empty());
    CHECK(says(refused("cylinder-due made=2013-13"), "made"));
    CHECK(says(refused("cylinder-due made=2013-03 stamps=2020-05:hydro"), "stamps"));
}

TEST_CASE("numbers are rounded to four digits, in the direction that errs to the careful side") {
    CHECK(near(rounded(6.9449, CalcRounding::down), 6.944, 1e-12));
    CHECK(near(rounded(83.201, CalcRounding::up), 83.21, 1e-12));
    CHECK(near(rounded(83.2049, CalcRounding::nearest), 83.20, 1e-12));
    CHECK(rounded(100.0, CalcRounding::up) == 100.0);
    CHECK(rounded(100.0, CalcRounding::down) == 100.0);
    CHECK(rounded(0.0, CalcRounding::up) == 0.0);
}
