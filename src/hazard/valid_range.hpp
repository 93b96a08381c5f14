// The range in which a formula of this room holds, and the sentence that refuses a number outside
// it. Every public function of hazard/ asks here first: not-a-number, negative and absurd values
// end as an Error with the name of the quantity in `where`; nothing is ever clamped.
#pragma once

#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace holdpin {

struct ValidRange {
    std::string_view name;  // as `holdpin calc` spells it: quantity, unit last
    std::string_view unit;
    double least = 0;
    double most = 0;
};

// Error: invalid, when `value` is not a number or not from `least` to `most`.
Result<void> refuse_outside(const ValidRange& range, double value);

// A level that lasted for some hours of one day: decibels, metres per second squared.
struct TimedLevel {
    double hours = 0;
    double level = 0;
};
// At least one level; each longer than nothing; together one day at most; levels inside `range`.
Result<void> refuse_day_outside(const ValidRange& range, const std::vector<TimedLevel>& day);

}  // namespace holdpin
