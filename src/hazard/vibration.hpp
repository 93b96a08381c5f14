// Daily vibration exposure, and how long it takes to the action and the limit value.
// A(8) = sqrt(sum((k a)² T)/8 h); whole body k = 1.4 for x and y, 1.0 for z (UK SI 2005/1093
// Schedule 2, read); hand and arm take the total of three axes, k = 1. Whole body: action 0.5
// (read), limit 1.15 m/s² (Directive 2002/44/EC, secondary copy). Hand and arm: 2.5 and 5 m/s²
// (read). Points: 100 (A(8)/action)², so that they add up over a day (HSE; whole-body scale from
// memory). Valid from 0.01 to 50 m/s² and 24 h in all. Exact but for the magnitude: one measured on
// another floor may be half or twice what this machine gives. The worst axis decides: ask for each.
#pragma once

#include <vector>

#include "hazard/valid_range.hpp"

namespace holdpin {

enum class VibrationKind {
    whole_body,
    hand_arm,
};
// Direction on the seat: fore and aft, sideways, up and down.
enum class VibrationAxis {
    x,
    y,
    z,
};

struct VibrationDay {
    double a8_ms2 = 0;
    double points = 0;           // 100 at the action value
    double hours_to_action = 0;  // at the mean magnitude of the day; may exceed a day
    double hours_to_limit = 0;
};
// `day`: hours and the frequency-weighted magnitude in m/s². Hand and arm have no axis: x and y
// are refused there, z stands for the total.
Result<VibrationDay> vibration_day(const std::vector<TimedLevel>& day, VibrationKind kind,
                                   VibrationAxis axis);

}  // namespace holdpin
