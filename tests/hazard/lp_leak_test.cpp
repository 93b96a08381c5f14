#include "hazard/lp_leak.hpp"

#include "hazard/lp_vapour.hpp"
#include "near.hpp"

using namespace holdpin;

namespace {

constexpr double kKgInLb = 0.45359237;
constexpr double kM3OfFt3 = 0.028316846592;
constexpr double k60F_c = 15.5556;

}  // namespace

TEST_CASE("properties that follow from propane's molecule") {
    // Molar masses 44.0956 and 28.9647: 1.5224; 5/0.2095 = 23.87 air to gas; computed (V=). The
    // table of approximate properties of LP-gases prints 1.50 and 23.86, trade charts 1.53
    // and 23.5.
    CHECK(near(lp_relative_density(), 1.5224, 0.00005));
    CHECK(near(lp_air_to_burn(), 23.87, 0.005));
    CHECK(near_share(lp_relative_density(), 1.50, 0.015));
    CHECK(near_share(lp_air_to_burn(), 23.86, 0.015));
}

TEST_CASE("a pound of propane is 8.46 cubic feet of vapour at 60 °F") {
    // Equation of state (V=, within 1.5 % of the trade): 8.46 as a real gas, 8.61 as an ideal one.
    const double ft3 = must(lp_vapour_volume_m3(kKgInLb, k60F_c)) / kM3OfFt3;
    CHECK(near_share(ft3, 8.46, 0.003));
    // 8.5: CAN/CGA-B149.2 extract (secondary copy), and OSHA's 300 lb = 2 550 ft³ in the
    // interpretation of 1910.110 of 4 April 2013 (read).
    CHECK(near_share(ft3, 8.5, 0.015));
    CHECK(near_share(must(lp_vapour_volume_m3(300 * kKgInLb, k60F_c)) / kM3OfFt3, 2550, 0.015));
    // 0.53 m³/kg: the same extract (secondary copy).
    CHECK(near_share(must(lp_vapour_volume_m3(1.0, k60F_c)), 0.53, 0.015));
}

TEST_CASE("liquid becomes 268 times its volume of vapour") {
    // Equation of state (V=): 267.6 as a real gas at 60 °F; a trade chart prints 272 (read).
    const double density = must(lp_vapour(k60F_c)).liquid_kg_m3;
    const double times = density * must(lp_vapour_volume_m3(1.0, k60F_c));
    CHECK(near_share(times, 267.6, 0.003));
    CHECK(near_share(times, 272, 0.02));
}

TEST_CASE("a cylinder brings rooms to the lower limit that were computed from 8.5 ft³ a pound") {
    // Computed, no published number (C): 20 lb, 170 ft³, 7 907 ft³; 33.5 lb, 13 244 ft³; 43.5 lb,
    // 17 198 ft³.
    constexpr double kRows[][3] = {{20, 170, 7907}, {33.5, 284.8, 13244}, {43.5, 369.8, 17198}};
    for (const auto& row : kRows) {
        const LpLeak leak = must(lp_leak(row[0] * kKgInLb, k60F_c, 1000));
        CHECK(near_share(leak.vapour_m3 / kM3OfFt3, row[1], 0.01));
        CHECK(near_share(leak.volume_at_lower_limit_m3 / kM3OfFt3, row[2], 0.01));
    }
    // Computed (C): 2.1 % is about 37.9 g/m³ at 25 °C; 2.15 % in proportion.
    const double g_m3 = 1000.0 / must(lp_leak(1, 25, 1000)).volume_at_lower_limit_m3;
    CHECK(near_share(g_m3, 37.9 * 2.15 / 2.1, 0.02));
}

TEST_CASE("the room's share is 100 % in the room that the leak brings to the limit") {
    const LpLeak leak = must(lp_leak(9, 20, 500));
    const LpLeak there = must(lp_leak(9, 20, leak.volume_at_lower_limit_m3));
    CHECK(near(there.percent_of_lower_limit, 100, 1e-9));
    CHECK(near_share(leak.vapour_m3, leak.volume_at_lower_limit_m3 * 0.0215, 1e-12));
}

TEST_CASE("more gas, a warmer day and a smaller room each bring the limit nearer") {
    for (double temperature = -42; temperature < 59; temperature += 1) {
        CHECK(must(lp_vapour_volume_m3(1, temperature)) <
              must(lp_vapour_volume_m3(1, temperature + 1)));
    }
    CHECK(must(lp_leak(9, 20, 500)).percent_of_lower_limit <
          must(lp_leak(10, 20, 500)).percent_of_lower_limit);
    CHECK(must(lp_leak(9, 20, 500)).percent_of_lower_limit <
          must(lp_leak(9, 20, 499)).percent_of_lower_limit);
    CHECK(near_share(must(lp_leak(18, 20, 500)).vapour_m3, 2 * must(lp_leak(9, 20, 500)).vapour_m3,
                     1e-12));
}

TEST_CASE("a leak of no mass, of liquid that does not boil or into no room is refused") {
    for (const double bad : {0.0, -1.0, 1e9, kNotANumber, kEndless}) {
        CHECK(lp_leak(bad, 20, 500).error().where == "mass_kg");
        CHECK(lp_leak(9, 20, bad).error().where == "room_m3");
    }
    for (const double bad : {-43.0, 61.0, kNotANumber}) {
        CHECK(lp_leak(9, bad, 500).error().where == "temperature_c");
    }
}
