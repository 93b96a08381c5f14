// Cleaning, noise, vibration, ramps and the raised hopper in the table of estimates.
#include "hazard/calc_tables.hpp"
#include "hazard/mix.hpp"
#include "hazard/noise.hpp"
#include "hazard/prop_load.hpp"
#include "hazard/run_plan.hpp"
#include "hazard/slope.hpp"
#include "hazard/vibration.hpp"

namespace holdpin {
namespace {

using enum CalcKind;
using enum CalcNeed;
using enum CalcRounding;

// ---- mix ----

constexpr CalcKey kMixKeys[] = {
    {.name = "ratio", .unit = "", .note = "the r of 1:r"},
    {.name = "convention", .unit = "in-parts per-water", .kind = word, .need = optional, .fallback = "in-parts",
     .note = "one part in 1+r, or one part to r of water"},
    {.name = "tank_l", .unit = "L", .note = "of solution; of water with per-water"},
};
constexpr CalcResultKey kMixResults[] = {
    {"concentrate_l", "concentrate", "L"},
    {"percent", "strength of the solution", "%"},
};

Result<CalcAnswers> run_mix(const CalcInput& in) {
    const auto convention = in.word("convention") == "per-water" ? MixConvention::per_water
                                                                 : MixConvention::in_parts;
    const Mix mixed = TRY(mix(in.number("ratio"), convention, in.number("tank_l")));
    return CalcAnswers{{"concentrate_l", mixed.concentrate_l}, {"percent", mixed.percent}};
}

// ---- noise ----

constexpr CalcKey kNoiseKeys[] = {
    {.name = "intervals", .unit = "hours@dba", .kind = timed, .note = "once for every interval"},
    {.name = "rule", .unit = "osha niosh", .kind = word, .need = optional, .fallback = "osha"},
};
constexpr CalcResultKey kNoiseResults[] = {
    {"dose_percent", "dose of the day", "%", up},
    {"twa_dba", "as a level over 8 hours", "dBA", up},
};

Result<CalcAnswers> run_noise(const CalcInput& in) {
    const auto rule = in.word("rule") == "niosh" ? NoiseRule::niosh : NoiseRule::osha;
    const NoiseDay day = TRY(noise_day(in.day(), rule));
    CalcAnswers answers{{"dose_percent", day.dose_percent}};
    if (day.twa_dba) answers.emplace_back("twa_dba", *day.twa_dba);
    return answers;
}

// ---- vibration ----

constexpr CalcKey kVibrationKeys[] = {
    {.name = "intervals", .unit = "hours@ms2", .kind = timed, .note = "once for every interval"},
    {.name = "kind", .unit = "whole-body hand-arm", .kind = word, .need = optional, .fallback = "whole-body"},
    {.name = "axis", .unit = "x y z", .kind = word, .need = optional, .fallback = "z",
     .note = "the worst axis decides: ask for each"},
};
constexpr CalcResultKey kVibrationResults[] = {
    {"a8_ms2", "daily exposure A(8)", "m/s²", up},
    {"points", "exposure points, 100 at the action value", "", up},
    {"hours_to_action", "hours to the action value, at this mean", "h", down},
    {"hours_to_limit", "hours to the limit value, at this mean", "h", down},
};

Result<CalcAnswers> run_vibration(const CalcInput& in) {
    const auto kind = in.word("kind") == "hand-arm" ? VibrationKind::hand_arm
                                                    : VibrationKind::whole_body;
    const std::string name = in.word("axis");
    const auto axis = name == "x"   ? VibrationAxis::x
                      : name == "y" ? VibrationAxis::y
                                    : VibrationAxis::z;
    const VibrationDay day = TRY(vibration_day(in.day(), kind, axis));
    return CalcAnswers{{"a8_ms2", day.a8_ms2},
                       {"points", day.points},
                       {"hours_to_action", day.hours_to_action},
                       {"hours_to_limit", day.hours_to_limit}};
}

// ---- slope ----

constexpr CalcKey kSlopeKeys[] = {
    {.name = "percent", .unit = "%", .need = either, .note = "or degrees"},
    {.name = "degrees", .unit = "°", .need = either},
    {.name = "limit_percent", .unit = "%", .need = optional, .note = "of the machine's manual"},
};
constexpr CalcResultKey kSlopeResults[] = {
    {"degrees", "angle", "°"},
    {"percent", "slope", "%"},
    {"within", "within the limit (1) or beyond it (0)", ""},
};

Result<Slope> slope_of(const CalcInput& in) {
    if (in.has("percent") == in.has("degrees")) {
        return calc_misuse("percent", "the slope is needed, said in one way",
                           "give percent or degrees");
    }
    if (in.has("percent")) return slope_of_percent(in.number("percent"));
    return slope_of_degrees(in.number("degrees"));
}

Result<CalcAnswers> run_slope(const CalcInput& in) {
    const Slope slope = TRY(slope_of(in));
    CalcAnswers answers{{"degrees", slope.degrees}, {"percent", slope.percent}};
    if (const auto limit = in.given("limit_percent")) {
        answers.emplace_back("within", TRY(slope_within(slope, *limit)) ? 1.0 : 0.0);
    }
    return answers;
}

// ---- prop-load ----

constexpr CalcKey kPropKeys[] = {
    {.name = "hopper_kg", .unit = "kg", .note = "with what is in it"},
    {.name = "arm_m", .unit = "m", .note = "level, from the hinge to the centre of mass"},
    {.name = "prop_m", .unit = "m", .note = "from the hinge to where the props bear"},
    {.name = "prop_angle_deg", .unit = "°", .note = "between a prop and that line"},
    {.name = "pin_mm", .unit = "mm", .note = "diameter"},
    {.name = "pins", .unit = "", .kind = count, .need = optional, .fallback = "2", .note = "1 or 2"},
    {.name = "shear_planes", .unit = "", .kind = count, .need = optional, .fallback = "1", .note = "1 or 2"},
    {.name = "yield_mpa", .unit = "MPa", .note = "tensile yield strength of the pin"},
};
constexpr CalcResultKey kPropResults[] = {
    {"force_per_pin_n", "force on each pin", "N", up},
    {"shear_mpa", "shear in each pin", "MPa", up},
    {"factor", "shear at which it yields, over that", "", down},
};

Result<CalcAnswers> run_prop(const CalcInput& in) {
    RaisedHopper hopper;
    hopper.hopper_kg = in.number("hopper_kg");
    hopper.arm_m = in.number("arm_m");
    hopper.prop_m = in.number("prop_m");
    hopper.prop_angle_deg = in.number("prop_angle_deg");
    hopper.pin_mm = in.number("pin_mm");
    hopper.pins = static_cast<int>(in.number("pins"));
    hopper.shear_planes = static_cast<int>(in.number("shear_planes"));
    hopper.yield_mpa = in.number("yield_mpa");
    const PropLoad load = TRY(prop_load(hopper));
    return CalcAnswers{{"force_per_pin_n", load.force_per_pin_n},
                       {"shear_mpa", load.shear_mpa},
                       {"factor", load.factor}};
}

// ---- run-plan ----

constexpr CalcKey kRunKeys[] = {
    {.name = "solution_l", .unit = "L"},
    {.name = "flow_lmin", .unit = "L/min"},
    {.name = "recovery_l", .unit = "L"},
    {.name = "pickup_percent", .unit = "%", .note = "of the solution"},
    {.name = "width_m", .unit = "m"},
    {.name = "speed_kmh", .unit = "km/h"},
    {.name = "overlap_percent", .unit = "%", .need = optional, .fallback = "0"},
    {.name = "area_m2", .unit = "m²"},
};
constexpr CalcResultKey kRunResults[] = {
    {"minutes_per_fill", "time on one fill", "min", down},
    {"fills", "fills, the first one counted", ""},
    {"drains", "drains, the last one counted", ""},
    {"m2_per_h", "area in an hour", "m²/h", down},
    {"hours", "running time", "h", up},
};

Result<CalcAnswers> run_run(const CalcInput& in) {
    CleaningRun run;
    run.solution_l = in.number("solution_l");
    run.flow_lmin = in.number("flow_lmin");
    run.recovery_l = in.number("recovery_l");
    run.pickup_percent = in.number("pickup_percent");
    run.width_m = in.number("width_m");
    run.speed_kmh = in.number("speed_kmh");
    run.overlap_percent = in.number("overlap_percent");
    run.area_m2 = in.number("area_m2");
    const RunPlan plan = TRY(run_plan(run));
    return CalcAnswers{{"minutes_per_fill", plan.minutes_per_fill},
                       {"fills", static_cast<double>(plan.fills)},
                       {"drains", static_cast<double>(plan.drains)},
                       {"m2_per_h", plan.m2_per_h},
                       {"hours", plan.hours}};
}

constexpr Calc kCalcs[] = {
    {"mix", "how much concentrate a tank takes", kMixKeys, kMixResults, "trade dilution charts, both conventions",
     "The label comes first. Never two products in one tank; never bleach with acid or ammonia.", false, run_mix},
    {"noise", "the noise dose of a day", kNoiseKeys, kNoiseResults,
     "29 CFR 1910.95 Appendix A; NIOSH 98-126 (from memory)",
     "What is quieter than 80 dBA is left out (1910.95(d)(2)(i)): such a day has a dose of 0 and no level. "
     "Impulses and hearing protectors are not in it.", true, run_noise},
    {"vibration", "the vibration exposure of a day", kVibrationKeys, kVibrationResults,
     "UK SI 2005/1093 Schedule 2; Directive 2002/44/EC (secondary copy); points: HSE",
     "The worst axis decides. A magnitude from another floor may be half or twice what this one gives.", true,
     run_vibration},
    {"slope", "a ramp as angle and percentage", kSlopeKeys, kSlopeResults, "geometry",
     "Whether the machine stands, grips or brakes there, wet or laden, is not in it.", false, run_slope},
    {"prop-load", "what a raised hopper puts on the pins of its props", kPropKeys, kPropResults,
     "moments about the hinge, yield in shear after von Mises; textbook mechanics, no published example",
     "One prop is never enough, whatever the factor: both are in before anybody goes under. "
     "If the sides do not share evenly, one pin carries nearly all of it.",
     true, run_prop},
    {"run-plan", "fills, drains and hours an area needs", kRunKeys, kRunResults,
     "dimensional sums, no published example", "Turning, filling, draining and breaks are not in the hours.",
     false, run_run},
};

}  // namespace

std::span<const Calc> work_calcs() { return kCalcs; }

}  // namespace holdpin
