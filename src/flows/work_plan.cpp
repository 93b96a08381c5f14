#include "flows/work_plan.hpp"

#include <cmath>

#include "flows/estimate_units.hpp"
#include "hazard/lp_endurance.hpp"
#include "hazard/run_plan.hpp"

namespace holdpin {
namespace {

constexpr double kLastDrop = 1e-9;  // a last drop that is rounding needs no further cylinder

int cylinders_for(const MachineClass& machine_class, double hours) {
    if (!machine_class.engine || machine_class.engine->cylinder_kg <= 0) return 0;
    const EngineFigures& engine = *machine_class.engine;
    const auto each_h = lp_endurance_h(engine.cylinder_kg, engine.burn_kg_h);
    if (!each_h.ok()) return 0;
    return static_cast<int>(std::ceil(hours / each_h.value() * (1 - kLastDrop)));
}

}  // namespace

std::optional<WorkPlan> work_plan(const MachineClass& machine_class, const Room& room) {
    if (!machine_class.work || room.area_m2 <= 0) return std::nullopt;
    const WorkFigures& work = *machine_class.work;
    const auto run = run_plan({work.solution_l, work.flow_lmin, work.recovery_l,
                               work.pickup_percent, work.width_m, work.speed_kmh,
                               work.overlap_percent, room.area_m2});
    if (!run.ok()) return std::nullopt;
    return WorkPlan{run.value().fills, run.value().drains,
                    cylinders_for(machine_class, run.value().hours),
                    std::ceil(run.value().hours * 60)};
}

std::string work_plan_line(const Session& session, const MachineClass& machine_class,
                           const Room& room) {
    const auto plan = work_plan(machine_class, room);
    if (!plan) return "";
    const Units units(session.content().site.units == "us");
    return session.say()(plan->cylinders > 0 ? "work-plan.with-gas" : "work-plan.without-gas",
                         {{"area", units.text(Quantity::area, room.area_m2)},
                          {"fills", std::to_string(plan->fills)},
                          {"drains", std::to_string(plan->drains)},
                          {"cylinders", std::to_string(plan->cylinders)}});
}

}  // namespace holdpin
