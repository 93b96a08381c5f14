// Judging a number that was read off a machine: limits, and the last value as a witness.
#pragma once

#include <cstdint>

#include "content_types/content.hpp"

namespace holdpin {

enum class NumberJudgement {
    fine,
    out_of_range,  // not a value this meter can show: ask again
    below_last,    // the meter went back: ask again, then a finding
    risen_too_far,
    low,           // below the level that is a finding
};

// `value` and `last` in tenths of the unit; `last` < 0: no last value.
NumberJudgement judge(const NumberPoint& point, std::int64_t value, std::int64_t last);
// The outcome once the person has confirmed the value.
Outcome outcome_of(const NumberPoint& point, NumberJudgement judgement);

}  // namespace holdpin
