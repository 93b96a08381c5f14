#include "hazard/slope.hpp"

#include <cmath>
#include <numbers>

#include "hazard/valid_range.hpp"

namespace holdpin {
namespace {

constexpr ValidRange kPercent = {"percent", "%", 0, 100};
constexpr ValidRange kDegrees = {"degrees", "°", 0, 45};
constexpr ValidRange kLimit = {"limit_percent", "%", 0, 100};
constexpr double kDegreesOfRadian = 180.0 / std::numbers::pi;
// A slope that was typed in degrees and meets the limit exactly is not beyond it by rounding.
constexpr double kRounding_percent = 1e-9;

}  // namespace

Result<Slope> slope_of_percent(double percent) {
    TRY(refuse_outside(kPercent, percent));
    return Slope{std::atan(percent / 100.0) * kDegreesOfRadian, percent};
}

Result<Slope> slope_of_degrees(double degrees) {
    TRY(refuse_outside(kDegrees, degrees));
    return Slope{degrees, 100.0 * std::tan(degrees / kDegreesOfRadian)};
}

Result<bool> slope_within(const Slope& slope, double limit_percent) {
    TRY(refuse_outside(kLimit, limit_percent));
    return slope.percent <= limit_percent + kRounding_percent;
}

}  // namespace holdpin
