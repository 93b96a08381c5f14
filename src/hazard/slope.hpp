// A ramp's slope as angle and as percentage: rise over level run, percent = 100 tan(angle).
// Geometry, exact. Valid from 0 to 100 % (45 degrees), far beyond what any machine here may drive.
// The limit is the machine's manual's; whether the machine stands, grips or brakes there, wet or
// laden, is not in it.
#pragma once

#include "base/result.hpp"

namespace holdpin {

struct Slope {
    double degrees = 0;
    double percent = 0;
};
Result<Slope> slope_of_percent(double percent);
Result<Slope> slope_of_degrees(double degrees);

// Whether a slope is at most the limit; both 0 to 100 %.
Result<bool> slope_within(const Slope& slope, double limit_percent);

}  // namespace holdpin
