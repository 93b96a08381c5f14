#include "hazard/uptake.hpp"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <limits>

#include "hazard/valid_range.hpp"

namespace holdpin {

namespace {

constexpr double kMostPpm = 100'000;
constexpr double kMostMinutes = 10'080;
constexpr ValidRange kPpm{"ppm", "ppm", 0, kMostPpm};
constexpr ValidRange kMinutes{"minutes", "min", 0, kMostMinutes};
constexpr ValidRange kStart{"start_percent", "%", 0, 99};
constexpr ValidRange kEnd{"end_percent", "%", 0, 99};
constexpr ValidRange kBackMinutes{"minutes", "min", 0.01, kMostMinutes};
constexpr ValidRange kStep{"step_min", "min", 0.01, 1440};

// A place on the way, with the slope there: the last slope of a step is the first of the next.
struct Point {
    double minutes = 0;
    double bound = 0;
    double slope = 0;
};
struct Tried {
    Point end;
    double error = 0;  // infinite where a stage left what blood can hold
};

// One step of Dormand and Prince 1980 (coefficients as in Hairer, Nørsett and Wanner, Solving
// Ordinary Differential Equations I, table II.5.2, from memory; the tests show order and result).
Tried tried_step(const Cfk& cfk, const AirCourse& air, const Point& from, double step) {
    constexpr double kNode[6] = {0, 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1};
    constexpr double kStage[6][5] = {
        {},
        {1.0 / 5},
        {3.0 / 40, 9.0 / 40},
        {44.0 / 45, -56.0 / 15, 32.0 / 9},
        {19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729},
        {9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656},
    };
    constexpr double kFifth[6] = {35.0 / 384,     0,        500.0 / 1113, 125.0 / 192,
                                  -2187.0 / 6784, 11.0 / 84};
    constexpr double kMiss[7] = {71.0 / 57600,      0,          -71.0 / 16695, 71.0 / 1920,
                                 -17253.0 / 339200, 22.0 / 525, -1.0 / 40};
    const auto holds = [&](double value) { return value >= 0 && value < cfk.capacity; };
    constexpr double kNever = std::numeric_limits<double>::infinity();
    double slope[7] = {from.slope};
    for (int stage = 1; stage < 6; ++stage) {
        double value = from.bound;
        for (int k = 0; k < stage; ++k) value += step * kStage[stage][k] * slope[k];
        if (!holds(value)) return {from, kNever};
        slope[stage] = cfk.rate(value, air.at(from.minutes + kNode[stage] * step));
    }
    double end = from.bound;
    for (int stage = 0; stage < 6; ++stage) end += step * kFifth[stage] * slope[stage];
    if (!holds(end)) return {from, kNever};
    slope[6] = cfk.rate(end, air.at(from.minutes + step));
    double miss = 0;
    for (int stage = 0; stage < 7; ++stage) miss += step * kMiss[stage] * slope[stage];
    return {{from.minutes + step, end, slope[6]}, std::abs(miss)};
}

// Walks a course of air and keeps its step width, so that a curve of many points costs little more
// than its end.
class Walk {
  public:
    Walk(const Cfk& cfk, const AirCourse& air, double bound)
        : cfk_(cfk), air_(air), now_{0, bound, cfk.rate(bound, air.at(0))} {}

    Result<double> to(double minutes) {
        const double most_error = 1e-10 * cfk_.capacity;
        while (now_.minutes < minutes) {
            if (++steps_ > 1'000'000) {
                return Error{ErrorKind::failed, "the uptake sum does not come to an end", "", ""};
            }
            const bool is_last = now_.minutes + step_ >= minutes;
            const double step = is_last ? minutes - now_.minutes : step_;
            const Tried tried = tried_step(cfk_, air_, now_, step);
            const double ratio = tried.error / most_error;
            if (ratio <= 1) {
                now_ = tried.end;
                if (is_last) now_.minutes = minutes;
            }
            const double wanted = step * std::clamp(0.9 * std::pow(ratio, -0.2), 0.2, 5.0);
            // A short last step that went well says nothing against the width before it.
            step_ = is_last && ratio <= 1 ? std::max(step_, wanted) : wanted;
        }
        return now_.bound;
    }
    long steps() const { return steps_; }

  private:
    const Cfk& cfk_;
    const AirCourse& air_;
    Point now_;
    double step_ = 0.1;
    long steps_ = 0;
};

Result<void> checked_air(const Stretch& stretch) {
    TRY(refuse_outside(kMinutes, stretch.minutes));
    TRY(refuse_outside(kPpm, stretch.air.start_ppm));
    return refuse_outside(
        kPpm, stretch.air.at(stretch.minutes));  // between its ends it cannot be outside
}

Error out_of_reach(const char* what, const char* mend) {
    return Error{ErrorKind::invalid, what, "", mend};
}

}  // namespace

Result<double> integrate_uptake(const Cfk& cfk, double start_bound, const AirCourse& air,
                                double minutes, long* steps) {
    Walk walk(cfk, air, start_bound);
    const double end = TRY(walk.to(minutes));
    if (steps) *steps = walk.steps();
    return end;
}

Result<Uptake> uptake(const Breather& breather, const Exposed& exposed) {
    TRY(refuse_outside(kPpm, exposed.ppm));
    TRY(refuse_outside(kMinutes, exposed.minutes));
    TRY(refuse_outside(kStart, exposed.start_percent));
    const Cfk cfk = TRY(cfk_of(breather));
    const AirCourse steady{exposed.ppm, 0, 0};
    const double end =
        TRY(integrate_uptake(cfk, cfk.bound(exposed.start_percent), steady, exposed.minutes));
    return Uptake{cfk.percent(end), cfk.percent(cfk.equilibrium(exposed.ppm)), cfk.half_time_min()};
}

Result<double> ppm_for(const Breather& breather, const Exposed& exposed, double end_percent) {
    TRY(refuse_outside(kBackMinutes, exposed.minutes));
    TRY(refuse_outside(kStart, exposed.start_percent));
    TRY(refuse_outside(kEnd, end_percent));
    const Cfk cfk = TRY(cfk_of(breather));
    const auto above = [&](double ppm) {
        return cfk.percent(cfk.after(cfk.bound(exposed.start_percent), ppm, exposed.minutes)) -
               end_percent;
    };
    const double clean = above(0);
    if (clean == 0) return 0;
    if (clean > 0) {
        return out_of_reach("in clean air the blood would still hold more than end_percent",
                            "give a higher end_percent or more minutes");
    }
    if (above(kMostPpm) < 0) {
        return out_of_reach("not even 100000 ppm lead to end_percent in that time",
                            "give a lower end_percent or more minutes");
    }
    boost::uintmax_t rounds = 200;
    const auto [low, high] = boost::math::tools::toms748_solve(
        above, 0.0, kMostPpm, boost::math::tools::eps_tolerance<double>(50), rounds);
    return (low + high) / 2;
}

Result<std::vector<BloodPoint>> follow_uptake(const Breather& breather, double start_percent,
                                              std::span<const Stretch> stretches, double step_min) {
    TRY(refuse_outside(kStart, start_percent));
    TRY(refuse_outside(kStep, step_min));
    std::vector<BloodPoint> curve;
    Breather now = breather;
    double began = 0;
    double percent = start_percent;
    for (const Stretch& stretch : stretches) {
        TRY(checked_air(stretch));
        TRY(refuse_outside(kMinutes, began + stretch.minutes));
        const double points = std::ceil(stretch.minutes / step_min);
        TRY(refuse_outside({"points of the curve", "", 0, 100'000},
                           static_cast<double>(curve.size()) + points));
        now.lungs = stretch.lungs;
        const Cfk cfk = TRY(cfk_of(now));
        curve.push_back({began, stretch.air.start_ppm, percent});
        Walk walk(cfk, stretch.air, cfk.bound(percent));
        for (double point = 1; point <= points; ++point) {
            const double at = std::min(point * step_min, stretch.minutes);
            percent = cfk.percent(TRY(walk.to(at)));
            curve.push_back({began + at, stretch.air.at(at), percent});
        }
        began += stretch.minutes;
    }
    return curve;
}

}  // namespace holdpin
