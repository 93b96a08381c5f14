#include "hazard/prop_load.hpp"

#include <cmath>
#include <numbers>

#include "hazard/valid_range.hpp"

namespace holdpin {
namespace {

constexpr ValidRange kHopper = {"hopper_kg", "kg", 1, 5000};
constexpr ValidRange kArm = {"arm_m", "m", 0.01, 10};
constexpr ValidRange kProp = {"prop_m", "m", 0.01, 10};
// Flatter than this a prop would slide along the hopper, and holds nothing.
constexpr ValidRange kAngle = {"prop_angle_deg", "°", 10, 170};
constexpr ValidRange kPin = {"pin_mm", "mm", 3, 100};
constexpr ValidRange kPins = {"pins", "", 1, 2};
constexpr ValidRange kPlanes = {"shear_planes", "", 1, 2};
constexpr ValidRange kYield = {"yield_mpa", "MPa", 50, 2000};
constexpr double kGravity_m_s2 = 9.80665;

Result<void> refuse(const RaisedHopper& hopper) {
    TRY(refuse_outside(kHopper, hopper.hopper_kg));
    TRY(refuse_outside(kArm, hopper.arm_m));
    TRY(refuse_outside(kProp, hopper.prop_m));
    TRY(refuse_outside(kAngle, hopper.prop_angle_deg));
    TRY(refuse_outside(kPin, hopper.pin_mm));
    TRY(refuse_outside(kPins, hopper.pins));
    TRY(refuse_outside(kPlanes, hopper.shear_planes));
    return refuse_outside(kYield, hopper.yield_mpa);
}

}  // namespace

Result<PropLoad> prop_load(const RaisedHopper& hopper) {
    TRY(refuse(hopper));
    const double angle = hopper.prop_angle_deg * std::numbers::pi / 180.0;
    const double all_n =
        hopper.hopper_kg * kGravity_m_s2 * hopper.arm_m / (hopper.prop_m * std::sin(angle));
    const double section_mm2 = std::numbers::pi * hopper.pin_mm * hopper.pin_mm / 4.0;
    PropLoad load;
    load.force_per_pin_n = all_n / hopper.pins;
    load.shear_mpa = load.force_per_pin_n / (hopper.shear_planes * section_mm2);
    load.factor = hopper.yield_mpa / std::numbers::sqrt3 / load.shear_mpa;
    return load;
}

}  // namespace holdpin
