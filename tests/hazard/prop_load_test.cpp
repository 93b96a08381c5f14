#include "hazard/prop_load.hpp"

#include <cmath>
#include <numbers>

#include "near.hpp"

using namespace holdpin;

namespace {

// An invented hopper; no published example of this sum is known.
RaisedHopper hopper() {
    return {.hopper_kg = 180,
            .arm_m = 0.8,
            .prop_m = 0.6,
            .prop_angle_deg = 60,
            .pin_mm = 16,
            .pins = 2,
            .shear_planes = 2,
            .yield_mpa = 235};
}

template <typename T>
PropLoad with(T RaisedHopper::*part, T value) {
    RaisedHopper changed = hopper();
    changed.*part = value;
    return must(prop_load(changed));
}

template <typename T>
std::string refused(T RaisedHopper::*part, T value) {
    RaisedHopper changed = hopper();
    changed.*part = value;
    const auto load = prop_load(changed);
    return load.ok() ? "" : load.error().where;
}

}  // namespace

TEST_CASE("an upright prop under the centre of mass carries the weight") {
    RaisedHopper upright = hopper();
    upright.arm_m = upright.prop_m;
    upright.prop_angle_deg = 90;
    const PropLoad load = must(prop_load(upright));
    CHECK(near_share(load.force_per_pin_n, 180 * 9.80665 / 2, 1e-12));
    CHECK(near_share(load.shear_mpa, load.force_per_pin_n / (2 * std::numbers::pi * 64), 1e-12));
    CHECK(near_share(load.factor * load.shear_mpa, 235 / std::sqrt(3.0), 1e-12));
}

TEST_CASE("moments about the hinge balance at any angle") {
    const PropLoad load = must(prop_load(hopper()));
    const double held = 2 * load.force_per_pin_n * std::sin(std::numbers::pi / 3) * 0.6;
    CHECK(near_share(held, 180 * 9.80665 * 0.8, 1e-12));
}

TEST_CASE("one pin bears twice what each of two bears") {
    const PropLoad two = must(prop_load(hopper()));
    const PropLoad one = with(&RaisedHopper::pins, 1);
    CHECK(near_share(one.force_per_pin_n, 2 * two.force_per_pin_n, 1e-12));
    CHECK(near_share(one.factor, two.factor / 2, 1e-12));
}

TEST_CASE("a heavier hopper, a flatter prop and a thinner pin each bring yielding nearer") {
    const double factor = must(prop_load(hopper())).factor;
    CHECK(with(&RaisedHopper::hopper_kg, 200.0).factor < factor);
    CHECK(with(&RaisedHopper::arm_m, 0.9).factor < factor);
    CHECK(with(&RaisedHopper::prop_m, 0.5).factor < factor);
    CHECK(with(&RaisedHopper::prop_angle_deg, 40.0).factor < factor);
    CHECK(with(&RaisedHopper::pin_mm, 12.0).factor < factor);
    CHECK(with(&RaisedHopper::shear_planes, 1).factor < factor);
    CHECK(with(&RaisedHopper::yield_mpa, 200.0).factor < factor);
}

TEST_CASE("every figure of a prop outside its range is refused by its name") {
    for (const double bad : {0.0, -1.0, 1e9, kNotANumber, kEndless}) {
        CHECK(refused(&RaisedHopper::hopper_kg, bad) == "hopper_kg");
        CHECK(refused(&RaisedHopper::arm_m, bad) == "arm_m");
        CHECK(refused(&RaisedHopper::prop_m, bad) == "prop_m");
        CHECK(refused(&RaisedHopper::prop_angle_deg, bad) == "prop_angle_deg");
        CHECK(refused(&RaisedHopper::pin_mm, bad) == "pin_mm");
        CHECK(refused(&RaisedHopper::yield_mpa, bad) == "yield_mpa");
    }
    for (const int bad : {0, -1, 3}) {
        CHECK(refused(&RaisedHopper::pins, bad) == "pins");
        CHECK(refused(&RaisedHopper::shear_planes, bad) == "shear_planes");
    }
}
