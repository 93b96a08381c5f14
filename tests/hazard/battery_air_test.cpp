#include "hazard/battery_air.hpp"

#include "near.hpp"

using namespace holdpin;

namespace {

constexpr double kFt3OfM3 = 35.3146667;

}  // namespace

TEST_CASE("the constants of both standards come out of one ampere in one cell") {
    // EN 50272-3, secondary copy read, V=: 24 x 0.42e-3 x 5 = 0.0504, printed 0.05.
    CHECK(near(24 * 0.00042 * 5, 0.0504, 1e-12));
    CHECK(near(must(battery_air(1, 1, ChargeStandard::older)).airflow_m3h, 0.05, 1e-12));
    // IEC 62485-3:2014, trade association leaflet read.
    CHECK(near(must(battery_air(1, 1, ChargeStandard::y2014)).airflow_m3h, 0.055, 1e-12));
}

TEST_CASE("an opening is 28 square centimetres for each cubic metre an hour") {
    // Secondary copy read, V=: Q/(3600 s x 0.1 m/s) = 27.8 Q cm², printed 28; room 2.5 Q.
    const BatteryAir air = must(battery_air(20, 1, ChargeStandard::older));
    CHECK(near(air.airflow_m3h, 1.0, 1e-12));
    CHECK(near(air.opening_cm2, 28, 1e-9));
    CHECK(near(1.0 / (3600.0 * 0.1) * 1e4, 28, 0.5));
    CHECK(near(air.free_room_m3, 2.5, 1e-9));
}

TEST_CASE("batteries of a truck need the air that was computed for them") {
    // Computed (C): 48 V, 500 Ah, taper charge of 6 A a 100 Ah; 24 V, 200 Ah; 48 V at 30 A.
    const double large_a = must(gassing_a(500, 6));
    CHECK(near(large_a, 30, 1e-12));
    const BatteryAir large = must(battery_air(24, large_a, ChargeStandard::older));
    CHECK(near(large.airflow_m3h, 36.0, 0.05));
    CHECK(near(large.opening_cm2, 1008, 0.5));
    CHECK(near(large.free_room_m3, 90, 0.5));
    const BatteryAir small = must(battery_air(12, must(gassing_a(200, 6)), ChargeStandard::older));
    CHECK(near(small.airflow_m3h, 7.2, 0.05));
    CHECK(near(small.opening_cm2, 201.6, 0.05));
    CHECK(near(must(battery_air(24, 30, ChargeStandard::y2014)).airflow_m3h, 39.6, 0.05));
}

TEST_CASE("hydrogen follows Faraday's law") {
    // Computed (V=): 0.4182 L at 0 °C, 0.4564 at 25 °C; ZVEI 14e, read, prints 0.45 L at 25 °C.
    CHECK(near(1000 * must(charge_hydrogen_m3h(1, 1, 0)), 0.4182, 0.0001));  // 0.41815
    CHECK(near(1000 * must(charge_hydrogen_m3h(1, 1, 25)), 0.4564, 0.00005));
    CHECK(near(1000 * must(charge_hydrogen_m3h(1, 1, 25)), 0.45, 0.007));
    // The same leaflet, read, V=: 3 Ah part one gram of water, 18.015 g/mol.
    CHECK(near(3 * 3600.0 / (2 * 96485.33212) * 18.015, 1.008, 0.0005));
}

TEST_CASE("the training text's room of 100 cells at 50 A gives 79 cubic feet an hour") {
    // Training text read, V=: 0.0158 ft³ an ampere-hour and cell, 79 ft³/h; 1 % of 1 200 ft³ is 12.
    CHECK(near(0.0158 * 100 * 50, 79, 0.5));
    CHECK(near(must(charge_hydrogen_m3h(100, 50, 20)) * kFt3OfM3, 79, 0.5));
    CHECK(near(10.0 * 15 * 8, 1200, 1e-9));
    CHECK(near(10.0 * 15 * 8 * 0.01, 12, 1e-9));
}

TEST_CASE("the standard's air keeps the hydrogen of the same current below one percent") {
    for (const ChargeStandard standard : {ChargeStandard::older, ChargeStandard::y2014}) {
        const double air = must(battery_air(24, 30, standard)).airflow_m3h;
        const double gas = must(charge_hydrogen_m3h(24, 30, 25));
        CHECK(100 * gas / air < 1.0);
    }
}

TEST_CASE("more cells and more current need more air, in proportion") {
    const double air = must(battery_air(12, 10, ChargeStandard::y2014)).airflow_m3h;
    CHECK(near_share(must(battery_air(24, 10, ChargeStandard::y2014)).airflow_m3h, 2 * air, 1e-12));
    CHECK(near_share(must(battery_air(12, 30, ChargeStandard::y2014)).airflow_m3h, 3 * air, 1e-12));
}

TEST_CASE("no cells, no current and absurd figures are refused") {
    for (const double bad : {0.0, -1.0, 1e9, kNotANumber, kEndless}) {
        CHECK(battery_air(24, bad, ChargeStandard::y2014).error().where == "gassing_a");
        CHECK(gassing_a(bad, 6).error().where == "capacity_ah");
        CHECK(gassing_a(500, bad).error().where == "per_100ah");
    }
    for (const int bad : {0, -1, 501, 1'000'000}) {
        CHECK(battery_air(bad, 30, ChargeStandard::y2014).error().where == "cells");
        CHECK(charge_hydrogen_m3h(bad, 30, 25).error().where == "cells");
    }
    CHECK(charge_hydrogen_m3h(24, 30, 100).error().where == "temperature_c");
}
