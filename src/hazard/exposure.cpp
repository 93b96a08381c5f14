#include "hazard/exposure.hpp"

#include <algorithm>

#include "hazard/valid_range.hpp"

namespace holdpin {

namespace {

constexpr ValidRange kHours{"hours", "h", 1e-6, 24};
constexpr ValidRange kPpm{"ppm", "ppm", 0, 100'000};
constexpr ValidRange kShift{"shift_h", "h", 0.01, 16};
constexpr ValidRange kLongShift{"shift_h", "h", 8, 24};
constexpr ValidRange kWindow{"window_h", "h", 0.01, 24};
constexpr ValidRange kLimit{"limit", "", 1e-9, 1e9};
constexpr ValidRange kConcentration{"concentration", "", 0, 1e9};

// Hours at the edges of the intervals, and ppm·h up to there: the dose is linear in between.
struct Dose {
    std::vector<double> hours{0};
    std::vector<double> ppm_h{0};

    double until(double hour) const {
        if (hour <= 0) return 0;
        if (hour >= hours.back()) return ppm_h.back();
        const auto next = std::upper_bound(hours.begin(), hours.end(), hour) - hours.begin();
        const auto right = static_cast<std::size_t>(next);
        const double part = (hour - hours[right - 1]) / (hours[right] - hours[right - 1]);
        return ppm_h[right - 1] + part * (ppm_h[right] - ppm_h[right - 1]);
    }
};

Result<Dose> dose_of(std::span<const ExposureInterval> intervals) {
    Dose dose;
    for (const ExposureInterval& interval : intervals) {
        TRY(refuse_outside(kHours, interval.hours));
        TRY(refuse_outside(kPpm, interval.ppm));
        dose.hours.push_back(dose.hours.back() + interval.hours);
        dose.ppm_h.push_back(dose.ppm_h.back() + interval.hours * interval.ppm);
    }
    if (intervals.empty()) {
        return Error{ErrorKind::invalid, "there is no interval", "",
                     "give hours@ppm at least once"};
    }
    TRY(refuse_outside({"hours together", "h", 0, 24 + 1e-9}, dose.hours.back()));
    return dose;
}

// The mean over a sliding window is linear between two places where one of its ends meets an edge,
// so that the greatest is found at one of those.
double worst_mean(const Dose& dose, double window_h) {
    double most = 0;
    for (const double edge : dose.hours) {
        for (const double begin : {edge, edge - window_h}) {
            most = std::max(most, dose.until(begin + window_h) - dose.until(begin));
        }
    }
    return most / window_h;
}

double held_against(const Exposure& exposure, LimitOver over) {
    switch (over) {
        case LimitOver::eight_hours:
            return exposure.twa_8h_ppm;
        case LimitOver::quarter_hour:
            return exposure.worst_15min_ppm;
        case LimitOver::instant:
            return exposure.highest_ppm;
    }
    return 0;
}

}  // namespace

Result<double> worst_mean_ppm(std::span<const ExposureInterval> intervals, double window_h) {
    TRY(refuse_outside(kWindow, window_h));
    return worst_mean(TRY(dose_of(intervals)), window_h);
}

Result<double> brief_scala(double shift_h) {
    TRY(refuse_outside(kShift, shift_h));
    return shift_h <= 8 ? 1 : 8 / shift_h * (24 - shift_h) / 16;
}

Result<double> equal_dose_limit(double limit, double shift_h) {
    TRY(refuse_outside(kLimit, limit));
    TRY(refuse_outside(kLongShift, shift_h));
    return limit * 8 / shift_h;
}

Result<double> mixture_share(std::span<const MixturePart> parts) {
    double share = 0;
    for (const MixturePart& part : parts) {
        TRY(refuse_outside(kConcentration, part.concentration));
        TRY(refuse_outside(kLimit, part.limit));
        share += part.concentration / part.limit;
    }
    return share;
}

Result<Exposure> exposure(std::span<const ExposureInterval> intervals, double shift_h) {
    const Dose dose = TRY(dose_of(intervals));
    Exposure found;
    found.reduction = TRY(brief_scala(shift_h));
    if (dose.hours.back() > shift_h * (1 + 1e-9)) {
        return Error{ErrorKind::invalid, "the intervals are longer than the shift", "",
                     "give the whole shift as shift_h"};
    }
    found.twa_8h_ppm = worst_mean(dose, 8);
    found.worst_15min_ppm = worst_mean(dose, 0.25);
    found.shift_mean_ppm = dose.ppm_h.back() / shift_h;
    for (const ExposureInterval& interval : intervals) {
        found.highest_ppm = std::max(found.highest_ppm, interval.ppm);
    }
    for (const CoLimit& limit : kCoLimits) {
        const bool over_8h = limit.over == LimitOver::eight_hours;
        found.shares.push_back({limit, held_against(found, limit.over) / limit.ppm,
                                over_8h ? limit.ppm * found.reduction : limit.ppm});
    }
    return found;
}

}  // namespace holdpin
