#include "hazard/run_plan.hpp"

#include <cmath>

#include "hazard/valid_range.hpp"

namespace holdpin {
namespace {

constexpr ValidRange kSolution = {"solution_l", "L", 1, 5000};
constexpr ValidRange kFlow = {"flow_lmin", "L/min", 0.05, 100};
constexpr ValidRange kRecovery = {"recovery_l", "L", 1, 5000};
constexpr ValidRange kPickup = {"pickup_percent", "%", 0, 100};
constexpr ValidRange kWidth = {"width_m", "m", 0.1, 10};
constexpr ValidRange kSpeed = {"speed_kmh", "km/h", 0.1, 30};
constexpr ValidRange kOverlap = {"overlap_percent", "%", 0, 90};
constexpr ValidRange kArea = {"area_m2", "m²", 1, 1e6};
constexpr ValidRange kHours = {"hours", "h", 0, 1000};  // more is no job for one machine
// A last litre that is rounding makes no further fill.
constexpr double kRounding = 1e-9;

Result<void> refuse(const CleaningRun& run) {
    TRY(refuse_outside(kSolution, run.solution_l));
    TRY(refuse_outside(kFlow, run.flow_lmin));
    TRY(refuse_outside(kRecovery, run.recovery_l));
    TRY(refuse_outside(kPickup, run.pickup_percent));
    TRY(refuse_outside(kWidth, run.width_m));
    TRY(refuse_outside(kSpeed, run.speed_kmh));
    TRY(refuse_outside(kOverlap, run.overlap_percent));
    return refuse_outside(kArea, run.area_m2);
}

int whole_ones(double litres, double tank_l) {
    return static_cast<int>(std::ceil(litres / tank_l * (1.0 - kRounding)));
}

}  // namespace

Result<RunPlan> run_plan(const CleaningRun& run) {
    TRY(refuse(run));
    RunPlan plan;
    plan.m2_per_h = run.width_m * (1.0 - run.overlap_percent / 100.0) * run.speed_kmh * 1000.0;
    plan.hours = run.area_m2 / plan.m2_per_h;
    TRY(refuse_outside(kHours, plan.hours));
    plan.minutes_per_fill = run.solution_l / run.flow_lmin;
    const double laid_l = plan.hours * 60.0 * run.flow_lmin;
    plan.fills = whole_ones(laid_l, run.solution_l);
    plan.drains = whole_ones(laid_l * run.pickup_percent / 100.0, run.recovery_l);
    return plan;
}

}  // namespace holdpin
