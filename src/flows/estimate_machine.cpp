// Of the machine: pressure in its cylinder, what its props carry, and what cleaning an area takes.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flows/estimate_sums.hpp"
#include "hazard/lp_vapour.hpp"
#include "hazard/prop_load.hpp"
#include "hazard/run_plan.hpp"

namespace holdpin {
namespace {

constexpr double kColdest_c = -40;
constexpr double kHottest_c = 60;
constexpr double kStarving_c = -20;   // below it little vapour leaves; common practice, no source
constexpr double kInTheSun_c = 50;
// Where a class does not say: the usual size on such machines; common practice, no source.
constexpr double kCylinder_kg = 15;
constexpr double kGravity_m_s2 = 9.80665;
constexpr std::size_t kMostFillsDrawn = 500;

Error no_figures(std::string_view what) {
    return Error{ErrorKind::absent, "no class of machine has figures for " + std::string(what),
                 "", "add them to the class"};
}

const MachineClass* class_with_hopper(const Session& session) {
    for (const MachineClass& one : session.pack().classes) {
        if (one.hopper) return &one;
    }
    return nullptr;
}

const MachineClass* class_with_work(const Session& session) {
    for (const MachineClass& one : session.pack().classes) {
        if (one.work) return &one;
    }
    return nullptr;
}

}  // namespace

// ---- cylinder -------------------------------------------------------------------------------

std::vector<EstimateDial> cylinder_dials() {
    return {{"temperature", Quantity::temperature, 20, kColdest_c, kHottest_c, 5, 10, {}}};
}

Result<EstimateBody> estimate_cylinder(const EstimateAsk& ask) {
    const Say say = ask.session.say();
    const Units& units = ask.units;
    const double temperature = ask.values[0];
    const double gauge = TRY(lp_vapour(temperature)).gauge_kpa;
    const double in_the_sun = TRY(lp_vapour(kInTheSun_c)).gauge_kpa;
    EstimateBody body;
    ChartLine line{say("estimates.line-propane"), ChartStyle::solid, false, {}};
    for (double at = kColdest_c; at <= kHottest_c; at += 2) {
        line.points.push_back({units.shown(Quantity::temperature, at),
                               units.shown(Quantity::pressure, TRY(lp_vapour(at)).gauge_kpa)});
    }
    body.chart.x = {say("estimates.axis-temperature"), units.unit(Quantity::temperature),
                    line.points.front().x, line.points.back().x, ChartTicks::decimal};
    body.chart.left = {say("estimates.axis-pressure"), units.unit(Quantity::pressure), 0,
                       line.points.back().y * 1.1, ChartTicks::decimal};
    body.chart.lines = {line};
    const Args args{{"temperature", units.text(Quantity::temperature, temperature)},
                    {"pressure", units.text(Quantity::pressure, gauge)},
                    {"hot", units.text(Quantity::temperature, kInTheSun_c)},
                    {"hot-pressure", units.text(Quantity::pressure, in_the_sun)}};
    body.chart.marks.push_back({units.shown(Quantity::temperature, temperature),
                                std::max(0.0, units.shown(Quantity::pressure, gauge)),
                                say("estimates.mark-pressure", args), false});
    body.results = {say("estimates.cylinder-pressure", args), say("estimates.cylinder-hot", args)};
    body.advice = say(temperature <= kStarving_c ? "estimates.advice-cold"
                                                 : "estimates.advice-cylinder");
    body.caution = say("estimates.caution-cylinder");
    body.source = say("estimates.source-cylinder");
    return body;
}

// ---- props ----------------------------------------------------------------------------------

Result<std::vector<EstimateDial>> prop_dials(const Session& session) {
    const MachineClass* one = class_with_hopper(session);
    if (one == nullptr) return no_figures("a raised hopper");
    const HopperFigures& hopper = *one->hopper;
    return std::vector<EstimateDial>{
        {"hopper", Quantity::mass, hopper.hopper_kg, 10, 2000, 10, 25, {}},
        {"arm", Quantity::length, hopper.arm_m, 0.1, 3, 0.05, 0.25, {}},
        {"prop", Quantity::length, hopper.prop_m, 0.1, 3, 0.05, 0.25, {}},
        {"angle", Quantity::angle, hopper.prop_angle_deg, 20, 160, 5, 0, {}}};
}

Result<EstimateBody> estimate_props(const EstimateAsk& ask) {
    const Say say = ask.session.say();
    const Units& units = ask.units;
    const MachineClass* one_class = class_with_hopper(ask.session);
    if (one_class == nullptr) return no_figures("a raised hopper");
    const HopperFigures& figures = *one_class->hopper;
    RaisedHopper hopper{ask.values[0], ask.values[1], ask.values[2], ask.values[3],
                        figures.pin_mm, 2, figures.shear_planes, figures.yield_mpa};
    const double two = TRY(prop_load(hopper)).force_per_pin_n;
    hopper.pins = 1;
    const double one = TRY(prop_load(hopper)).force_per_pin_n;
    const auto mass = [&](double kg) { return units.shown(Quantity::mass, kg); };
    const auto force = [&](double n) { return units.shown(Quantity::force, n); };
    const double most = ask.values[0] * 1.5;
    EstimateBody body;
    body.chart.x = {say("estimates.axis-hopper"), units.unit(Quantity::mass), 0, mass(most),
                    ChartTicks::decimal};
    body.chart.left = {say("estimates.axis-force"), units.unit(Quantity::force), 0,
                       force(one) * 1.6, ChartTicks::decimal};
    body.chart.lines = {{say("estimates.line-one-pin"), ChartStyle::dashed, false,
                         {{0, 0}, {mass(most), force(one) * 1.5}}},
                        {say("estimates.line-two-pins"), ChartStyle::solid, false,
                         {{0, 0}, {mass(most), force(two) * 1.5}}}};
    const Args args{{"two", units.text(Quantity::force, two)},
                    {"one", units.text(Quantity::force, one)},
                    {"two-mass", units.text(Quantity::mass, std::ceil(two / kGravity_m_s2))},
                    {"one-mass", units.text(Quantity::mass, std::ceil(one / kGravity_m_s2))}};
    const double now = mass(ask.values[0]);
    body.chart.marks = {{now, force(one), units.text(Quantity::force, one), false},
                        {now, force(two), units.text(Quantity::force, two), false}};
    body.results = {say("estimates.props-two", args), say("estimates.props-one", args)};
    body.advice = say("estimates.advice-props");
    body.caution = say("estimates.caution-props");
    const Footing* footing = ask.session.pack().footing(figures.footing);
    body.source = say("estimates.source-props",
                      {{"class", say(one_class->short_name)},
                       {"footing", footing == nullptr ? "" : say(footing->citation)}});
    return body;
}

// ---- run ------------------------------------------------------------------------------------

Result<std::vector<EstimateDial>> run_dials(const Session& session, const Room& room) {
    const MachineClass* one = class_with_work(session);
    if (one == nullptr) return no_figures("cleaning");
    const double area = room.area_m2 > 0 ? room.area_m2 : 1000;
    const bool said = one->engine && one->engine->cylinder_kg > 0;
    const double cylinder_kg = said ? one->engine->cylinder_kg : kCylinder_kg;
    return std::vector<EstimateDial>{
        {"area", Quantity::area, area, 10, 100'000, 0, 0, {}},
        {"speed", Quantity::speed, one->work->speed_kmh, 1, 12, 0.5, 0.5, {}},
        {"water", Quantity::liquid_flow, one->work->flow_lmin, 0.5, 20, 0.5, 0.1, {}},
        {"gas", Quantity::mass, cylinder_kg, 2, 45, 1, 1, {}}};
}

namespace {

// What is in the two tanks: one falls and is filled, the other rises and is drained.
ChartData tanks_chart(const EstimateAsk& ask, const CleaningRun& run, const RunPlan& plan) {
    const Say say = ask.session.say();
    const auto shown = [&](double litres) { return ask.units.shown(Quantity::liquid, litres); };
    const double end = plan.hours * 60;
    ChartLine clean{say("estimates.line-clean"), ChartStyle::solid, false,
                    {{0, shown(run.solution_l)}}};
    ChartLine dirty{say("estimates.line-dirty"), ChartStyle::dashed, false, {{0, 0}}};
    const double taken = run.flow_lmin * run.pickup_percent / 100;
    const double fill_min = run.solution_l / run.flow_lmin;
    for (double at = fill_min; at < end && clean.points.size() < kMostFillsDrawn; at += fill_min) {
        clean.points.push_back({at, 0});
        clean.points.push_back({at, shown(run.solution_l)});
    }
    clean.points.push_back(
        {end, shown(run.solution_l - run.flow_lmin * (end - clean.points.back().x))});
    const double drain_min = taken > 0 ? run.recovery_l / taken : end + 1;
    for (double at = drain_min; at < end && dirty.points.size() < kMostFillsDrawn;
         at += drain_min) {
        dirty.points.push_back({at, shown(run.recovery_l)});
        dirty.points.push_back({at, 0});
    }
    dirty.points.push_back({end, shown(taken * (end - dirty.points.back().x))});
    ChartData chart;
    chart.x = {say("estimates.axis-running"), "h:min", 0, end, ChartTicks::clock};
    chart.left = {say("estimates.axis-tank"), ask.units.unit(Quantity::liquid), 0,
                  shown(std::max(run.solution_l, run.recovery_l)) * 1.1, ChartTicks::decimal};
    chart.lines = {clean, dirty};
    return chart;
}

}  // namespace

Result<EstimateBody> estimate_run(const EstimateAsk& ask) {
    const Say say = ask.session.say();
    const MachineClass* one = class_with_work(ask.session);
    if (one == nullptr) return no_figures("cleaning");
    const WorkFigures& work = *one->work;
    CleaningRun run{work.solution_l, ask.values[2],       work.recovery_l, work.pickup_percent,
                    work.width_m,    ask.values[1],       work.overlap_percent,
                    ask.values[0]};
    const RunPlan plan = TRY(run_plan(run));
    EstimateBody body;
    body.chart = tanks_chart(ask, run, plan);
    const double burnt = one->engine ? one->engine->burn_kg_h * plan.hours : 0;
    const int cylinders = static_cast<int>(std::ceil(burnt / ask.values[3] * (1 - 1e-9)));
    const Args args{
        {"fills", std::to_string(plan.fills)},
        {"drains", std::to_string(plan.drains)},
        {"cylinders", std::to_string(cylinders)},
        {"gas", ask.units.text(Quantity::mass, burnt)},
        {"time", ask.units.text(Quantity::minutes, std::ceil(plan.hours * 60))},
        {"fill-time",
         ask.units.text(Quantity::minutes, std::floor(plan.minutes_per_fill))}};
    body.results = {say("estimates.run-plan", args), say("estimates.run-gas", args),
                    say("estimates.run-fill", args)};
    if (!one->engine) body.results.erase(body.results.begin() + 1);
    body.advice = say("estimates.advice-run");
    body.caution = say("estimates.caution-run");
    body.source = say("estimates.source-run", {{"class", say(one->short_name)}});
    return body;
}

}  // namespace holdpin
