#include "hazard/valid_range.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace holdpin {
namespace {

// A day of 24 hours, with room for the rounding of decimals that were typed.
constexpr double kLongestDay_h = 24.0 + 1e-9;

std::string with_unit(double value, std::string_view unit) {
    return unit.empty() ? fmt::format("{:g}", value) : fmt::format("{:g} {}", value, unit);
}

}  // namespace

Result<void> refuse_outside(const ValidRange& range, double value) {
    if (value >= range.least && value <= range.most) return {};
    const std::string mend = fmt::format("give a number from {:g} to {}", range.least,
                                         with_unit(range.most, range.unit));
    if (!std::isfinite(value)) {
        return Error{ErrorKind::invalid, "this is no number", std::string(range.name), mend};
    }
    return Error{ErrorKind::invalid,
                 with_unit(value, range.unit) + " is outside what this estimate holds for",
                 std::string(range.name), mend};
}

Result<void> refuse_day_outside(const ValidRange& range, const std::vector<TimedLevel>& day) {
    if (day.empty()) {
        return Error{ErrorKind::invalid, "no interval is given", std::string(range.name),
                     "give hours and level of every part of the day"};
    }
    double hours = 0;
    for (const TimedLevel& part : day) {
        TRY(refuse_outside({"hours", "h", 0.0001, 24.0}, part.hours));
        TRY(refuse_outside(range, part.level));
        hours += part.hours;
    }
    if (hours > kLongestDay_h) {
        return Error{ErrorKind::invalid,
                     fmt::format("the intervals make {:g} hours, and a day has 24", hours),
                     std::string(range.name), "give the parts of one day"};
    }
    return {};
}

}  // namespace holdpin
