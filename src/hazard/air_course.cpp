#include "hazard/air_course.hpp"

#include <cmath>

namespace holdpin {

namespace {

// (1 − e^(−x))/x for x >= 0, 1 at 0.
double first_gain(double x) { return x > 0 ? -std::expm1(-x) / x : 1; }

// (x − 1 + e^(−x))/x² for x >= 0, 1/2 at 0. The series takes over where the numerator would lose
// its digits; its first term left out is below 1e-17 there.
double second_gain(double x) {
    if (x > 0.01) return (x + std::expm1(-x)) / (x * x);
    return 0.5 - x * (1.0 / 6 - x * (1.0 / 24 - x * (1.0 / 120 - x * (1.0 / 720 - x / 5040))));
}

}  // namespace

double AirCourse::at(double minutes) const {
    if (rise_ppm_min == 0) return start_ppm;
    return start_ppm + rise_ppm_min * minutes * first_gain(settling_per_min * minutes);
}

double AirCourse::mean(double minutes) const {
    return start_ppm + rise_ppm_min * minutes * second_gain(settling_per_min * minutes);
}

std::optional<double> AirCourse::steady() const {
    if (rise_ppm_min == 0) return start_ppm;
    if (settling_per_min <= 0) return std::nullopt;
    return start_ppm + rise_ppm_min / settling_per_min;
}

std::optional<double> AirCourse::minutes_to(double ppm) const {
    if (ppm == start_ppm) return 0;
    if (rise_ppm_min == 0) return std::nullopt;
    const double straight = (ppm - start_ppm) / rise_ppm_min;  // if the rise went on as it began
    const double part = settling_per_min * straight;           // of the way to the steady level
    if (straight < 0 || part >= 1) return std::nullopt;
    return part > 0 ? -std::log1p(-part) / settling_per_min : straight;
}

}  // namespace holdpin
