#include "hazard/lp_endurance.hpp"

#include "near.hpp"

using namespace holdpin;

namespace {

constexpr double kKgOfLb = 0.45359237;
constexpr double kMjOfBtu = 0.00105505585262;
constexpr double kKgOfGallon = 4.229 * kKgOfLb;  // pure propane at 60 °F

}  // namespace

TEST_CASE("heating values agree with the tables of the trade within 1.5 %") {
    // Computed from the equation of state (V=): 50.35 MJ/kg = 21 647 Btu/lb, 46.35 = 19 927.
    CHECK(near_share(kPropaneHigherHeat_mj_kg * kKgOfLb / kMjOfBtu, 21'647, 0.0005));
    CHECK(near_share(kPropaneLowerHeat_mj_kg * kKgOfLb / kMjOfBtu, 19'927, 0.0005));
    // 21 548 Btu/lb: table of approximate properties of LP-gases, two secondary copies;
    // 21 591: trade chart, read; 49 700 kJ/kg: CAN/CGA-B149.2 extract, secondary copy.
    CHECK(near_share(kPropaneHigherHeat_mj_kg * kKgOfLb / kMjOfBtu, 21'548, 0.015));
    CHECK(near_share(kPropaneHigherHeat_mj_kg * kKgOfLb / kMjOfBtu, 21'591, 0.015));
    CHECK(near_share(kPropaneHigherHeat_mj_kg, 49.7, 0.015));
}

TEST_CASE("the rule's worked example fills 79.8 of 100 gallons") {
    // 29 CFR 1910.110(b)(19)(v)(d), read, V= within its rounding of 0.1.
    CHECK(near(must(lp_fill_volume({100, 0.42, 0.510, 1.031})), 79.8, 0.1));
    CHECK(near(must(lp_fill_volume({100, 0.42, 0.510, 1.031})), 79.88, 0.005));
}

TEST_CASE("a cylinder holds 42 % of its water capacity in propane") {
    // Trade tables after 1910.110(b)(12), secondary copies read, V=.
    CHECK(near(must(lp_fill_kg(47.6, 0.42)), 19.992, 0.0005));
    CHECK(near(must(lp_fill_kg(23.8, 0.42)), 9.996, 0.0005));
    // Secondary copy, V=: 33.5 lb is a water capacity of 79.8, printed 80; 33 lb is 7.8 gallons.
    CHECK(near(must(lp_fill_kg(79.8, 0.42)), 33.5, 0.05));
    CHECK(near(33.0 * kKgOfLb / kKgOfGallon, 7.8, 0.05));
}

TEST_CASE("eight gallons last seven to ten hours at what the trade burns") {
    // Trade figures, secondary copy: 0.8 to 1.1 gallons an hour.
    CHECK(near(must(lp_endurance_h(8 * kKgOfGallon, 1.1 * kKgOfGallon)), 7, 0.5));
    CHECK(near(must(lp_endurance_h(8 * kKgOfGallon, 0.8 * kKgOfGallon)), 10, 0.5));
}

TEST_CASE("burn and endurance agree with the energy in the cylinder") {
    const double burn = must(lp_burn_kg_h(10, 0.25));
    const double hours = must(lp_endurance_h(15, burn));
    CHECK(near_share(hours * 10 * 3.6, 15 * kPropaneLowerHeat_mj_kg * 0.25, 1e-12));
    CHECK(must(lp_burn_kg_h(11, 0.25)) > burn);
    CHECK(must(lp_burn_kg_h(10, 0.30)) < burn);
    CHECK(must(lp_endurance_h(16, burn)) > hours);
    CHECK(must(lp_endurance_h(15, burn + 1)) < hours);
}

TEST_CASE("nothing, a percentage for a share and absurd figures are refused") {
    for (const double bad : {0.0, -1.0, 1e9, kNotANumber, kEndless}) {
        CHECK(lp_endurance_h(bad, 2).error().where == "mass_kg");
        CHECK(lp_endurance_h(15, bad).error().where == "burn_kg_h");
        CHECK(lp_burn_kg_h(bad, 0.25).error().where == "power_kw");
        CHECK(lp_burn_kg_h(10, bad).error().where == "efficiency");
        CHECK(lp_fill_kg(bad, 0.42).error().where == "water_kg");
        CHECK(lp_fill_volume({100, bad, 0.51, 1}).error().where == "filling_density");
        CHECK(lp_fill_volume({100, 0.42, bad, 1}).error().where == "specific_gravity");
        CHECK(lp_fill_volume({100, 0.42, 0.51, bad}).error().where == "correction");
    }
    CHECK(lp_burn_kg_h(10, 25).error().where == "efficiency");
}
