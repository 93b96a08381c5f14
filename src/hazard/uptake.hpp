// What an exposure to carbon monoxide does to a body: %COHb over time, through stretches of
// changing air and work (drive in, idle, air out, walk away), and back from %COHb to the air. The
// equation, its units and its source stand in cfk.hpp, the person in breather.hpp. Changing air is
// integrated (Dormand–Prince 5(4), error held to 1e-10 of the capacity a step); for steady air the
// exact solution is the oracle of the integrator and serves the way back. Range: 0 to 100,000 ppm,
// 0 to 99 %COHb, up to a week. The linear form fails above about 10 %. A planning estimate: it
// diagnoses nobody. Who has symptoms goes out, and to a doctor.
#pragma once

#include <span>
#include <vector>

#include "base/result.hpp"
#include "hazard/air_course.hpp"
#include "hazard/breather.hpp"

namespace holdpin {

struct Exposed {
    double ppm = 0;      // steady, 0 to 100,000
    double minutes = 0;  // 0 to 10,080
    double start_percent =
        0.75;  // 0 to 99; 0.5 to 0.8 in people who do not smoke (NAP 12040, read)
};

struct Uptake {
    double end_percent = 0;
    double equilibrium_percent = 0;
    double half_time_min = 0;  // of a low level in clean air
};
Result<Uptake> uptake(const Breather& breather, const Exposed& exposed);

// The steady ppm (0 to 100,000) that leads from `start_percent` to `end_percent` in `minutes`;
// `exposed.ppm` is not looked at. Refused where clean air ends above it or 100,000 ppm below it.
Result<double> ppm_for(const Breather& breather, const Exposed& exposed, double end_percent);

// One stretch of an exposure: how the air goes, and how the person breathes in it.
struct Stretch {
    double minutes = 0;
    AirCourse air;
    Lungs lungs;
};
struct BloodPoint {
    double minutes = 0;  // from the beginning
    double ppm = 0;
    double percent = 0;
};
// The curve, a point at least every `step_min` (0.01 to 1,440) and one at each end of a stretch.
// The lungs of `breather` are not looked at. At most 10,080 minutes and 100,000 points.
Result<std::vector<BloodPoint>> follow_uptake(const Breather& breather, double start_percent,
                                              std::span<const Stretch> stretches, double step_min);

// The integrator on its own: bound CO after `minutes` of a course of air. `steps`, where given,
// counts the steps that were taken or tried again.
Result<double> integrate_uptake(const Cfk& cfk, double start_bound, const AirCourse& air,
                                double minutes, long* steps = nullptr);

}  // namespace holdpin
