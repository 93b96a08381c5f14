// How an area is cleaned: fills of solution, drains of dirty water, and hours of running.
// Rate = width (1 - overlap) speed, fills and drains = what flows out and what is picked up, over
// the tanks, rounded up to whole ones. Dimensional sums; no published example is known. Valid: see
// the ranges in run_plan.cpp. Turning, filling, draining, dry runs and breaks are not in the
// hours: real work takes a quarter more and longer (common practice, no source). What the floor
// keeps or drips back is only in pickup_percent, and that is a guess.
#pragma once

#include "base/result.hpp"

namespace holdpin {

struct CleaningRun {
    double solution_l = 0;      // tank
    double flow_lmin = 0;       // solution laid down while running
    double recovery_l = 0;      // tank
    double pickup_percent = 0;  // of the solution, 0 to 100
    double width_m = 0;
    double speed_kmh = 0;
    double overlap_percent = 0;  // of the width, 0 to 90
    double area_m2 = 0;
};

struct RunPlan {
    double minutes_per_fill = 0;
    int fills = 0;   // the first one counts
    int drains = 0;  // the one at the end counts
    double m2_per_h = 0;
    double hours = 0;  // running
};
Result<RunPlan> run_plan(const CleaningRun& run);

}  // namespace holdpin
