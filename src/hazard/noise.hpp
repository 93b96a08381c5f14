// Noise dose of a day, and the level that would give it in eight hours.
// OSHA: 29 CFR 1910.95 Appendix A (read): T = 8/2^((L-90)/5) h, D = 100 sum(C/T),
// TWA = 16.61 log10(D/100) + 90. NIOSH 98-126 (from memory): T = 8/2^((L-85)/3) h,
// TWA = 10 log10(D/100) + 85. Both leave out what is quieter than 80 dBA: 1910.95(d)(2)(i) (from
// memory), for the action level of 50 %. A quieter day has a dose of 0 and no level. Against the
// limit of 100 % OSHA counts from 90 dBA (Technical Manual III:5, secondary copy): never more.
// Valid from 40 to 130 dBA (where table G-16a ends; NIOSH: 140), and for 24 hours in all. The
// formulas are exact; a level that was guessed is not: 3 dB wrong is half or double for NIOSH.
// Impulses, and what ears are protected by, are not in it.
#pragma once

#include <optional>
#include <vector>

#include "hazard/valid_range.hpp"

namespace holdpin {

enum class NoiseRule {
    osha,   // 90 dBA for 8 hours, 5 dB for half the time
    niosh,  // 85 dBA for 8 hours, 3 dB for half the time
};

// The hours in which one level makes 100 %.
Result<double> allowed_hours(double level_dba, NoiseRule rule);

struct NoiseDay {
    double dose_percent = 0;
    std::optional<double> twa_dba;  // absent: no part of the day is counted
};
// `day`: hours and dBA. Error: invalid.
Result<NoiseDay> noise_day(const std::vector<TimedLevel>& day, NoiseRule rule);

// The level of an eight-hour day that gives the dose; 0.1 to 100 000 %.
Result<double> noise_twa_dba(double dose_percent, NoiseRule rule);

// The constant level that reaches OSHA's action level, a dose of 50 %, in a shift of 1 to 24 h.
Result<double> osha_action_level_dba(double shift_h);

}  // namespace holdpin
