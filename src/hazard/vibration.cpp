#include "hazard/vibration.hpp"

#include <cmath>

namespace holdpin {
namespace {

struct KindFigures {
    double action_ms2;
    double limit_ms2;
};
constexpr KindFigures kWholeBody = {0.5, 1.15};
constexpr KindFigures kHandArm = {2.5, 5.0};
constexpr double kLevel = 1.4;  // x and y of the whole body
constexpr double kDay_h = 8.0;

double squared(double value) { return value * value; }

double axis_factor(VibrationKind kind, VibrationAxis axis) {
    return kind == VibrationKind::whole_body && axis != VibrationAxis::z ? kLevel : 1.0;
}

}  // namespace

Result<VibrationDay> vibration_day(const std::vector<TimedLevel>& day, VibrationKind kind,
                                   VibrationAxis axis) {
    TRY(refuse_day_outside({"ms2", "m/s²", 0.01, 50}, day));
    if (kind == VibrationKind::hand_arm && axis != VibrationAxis::z) {
        return Error{ErrorKind::invalid, "vibration of hand and arm is the total of all axes",
                     "axis", "leave the axis out, and give the total"};
    }
    const KindFigures& figures = kind == VibrationKind::whole_body ? kWholeBody : kHandArm;
    double energy = 0;
    double hours = 0;
    for (const TimedLevel& part : day) {
        energy += squared(axis_factor(kind, axis) * part.level) * part.hours;
        hours += part.hours;
    }
    VibrationDay vibration;
    vibration.a8_ms2 = std::sqrt(energy / kDay_h);
    vibration.points = 100.0 * squared(vibration.a8_ms2 / figures.action_ms2);
    vibration.hours_to_action = kDay_h * squared(figures.action_ms2) / (energy / hours);
    vibration.hours_to_limit = kDay_h * squared(figures.limit_ms2) / (energy / hours);
    return vibration;
}

}  // namespace holdpin
