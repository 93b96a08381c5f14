// Breathing-zone exposure over a shift against the limits for carbon monoxide.
//   8-h mean: E = Σ C·T / 8 h, 29 CFR 1910.1000(d)(1)(i) (read); unlisted time counts as clean. Of
//   a longer shift the worst 8 h count (OSHA interpretation of 23 January 1997, read), so that the
//   mean is found over every 8-h window; 15-min means likewise. Extended shifts: Brief and Scala
//   (read in secondary copies) reduce a limit by (8/h)·(24 − h)/16, to be held against the mean of
//   the shift.
// Units: hours, ppm; a share of 1 is at the limit. Exact for intervals of steady air; an interval
// is itself a mean, and hides the peaks within. 35 ppm is an 8-h mean, no instant limit. An
// estimate: exposure records come from a meter.
#pragma once

#include <array>
#include <span>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace holdpin {

struct ExposureInterval {
    double hours = 0;  // above 0; all together at most 24
    double ppm = 0;    // 0 to 100,000
};

// What a limit is held against.
enum class LimitOver { eight_hours, quarter_hour, instant };

struct CoLimit {
    std::string_view id;
    LimitOver over = LimitOver::eight_hours;
    double ppm = 0;
    std::string_view source;
};
// Limits are site content in the end; these are the published ones. All read, status in the tests.
inline constexpr std::array<CoLimit, 6> kCoLimits{{
    {"osha", LimitOver::eight_hours, 50, "OSHA PEL, 29 CFR 1910.1000 table Z-1"},
    {"niosh", LimitOver::eight_hours, 35, "NIOSH REL"},
    {"niosh-ceiling", LimitOver::instant, 200, "NIOSH REL, ceiling"},
    {"eu", LimitOver::eight_hours, 20, "Directive 2004/37/EC annex III, 8 h"},
    {"eu-15min", LimitOver::quarter_hour, 100, "Directive 2004/37/EC annex III, 15 min"},
    {"acgih", LimitOver::eight_hours, 25, "ACGIH TLV"},
}};

struct LimitShare {
    CoLimit limit;
    double share = 0;               // 1: at the limit
    double extended_limit_ppm = 0;  // 8-h limits by Brief and Scala; the others as they are
};

struct Exposure {
    double twa_8h_ppm = 0;  // of the worst 8 h
    double worst_15min_ppm = 0;
    double highest_ppm = 0;          // of one interval
    double shift_mean_ppm = 0;       // over `shift_h`, to hold against an extended-shift limit
    double reduction = 1;            // Brief and Scala
    std::vector<LimitShare> shares;  // in the order of kCoLimits
};

// `shift_h` above 0, up to 16, and not shorter than the intervals together.
Result<Exposure> exposure(std::span<const ExposureInterval> intervals, double shift_h);

// The greatest mean over any `window_h` (0.01 to 24), what lies outside the intervals being clean.
Result<double> worst_mean_ppm(std::span<const ExposureInterval> intervals, double window_h);

// The factor by Brief and Scala for a shift of up to 16 h; 1 up to 8 h.
Result<double> brief_scala(double shift_h);

// The other way to lengthen a shift: the same dose in a day, limit·8/h, as 29 CFR 1910.1025 has it
// for lead (read in a secondary copy). Shifts of 8 to 24 h.
Result<double> equal_dose_limit(double limit, double shift_h);

// Σ C/L of several substances with a common effect, 29 CFR 1910.1000(d)(2) (read): above 1 is over.
struct MixturePart {
    double concentration = 0;
    double limit = 0;  // in the same unit, above 0
};
Result<double> mixture_share(std::span<const MixturePart> parts);

}  // namespace holdpin
