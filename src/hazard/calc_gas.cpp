// LP gas, its cylinders, and hydrogen of batteries in the table of estimates.
#include "hazard/battery_air.hpp"
#include "hazard/calc_tables.hpp"
#include "hazard/cylinder_due.hpp"
#include "hazard/lp_endurance.hpp"
#include "hazard/lp_leak.hpp"
#include "hazard/lp_vapour.hpp"

namespace holdpin {
namespace {

using enum CalcKind;
using enum CalcNeed;
using enum CalcRounding;

// ---- lp-vapour ----

constexpr CalcKey kVapourKeys[] = {{.name = "temperature_c", .unit = "°C"}};
constexpr CalcResultKey kVapourResults[] = {
    {"absolute_kpa", "pressure over the liquid, absolute", "kPa"},
    {"gauge_kpa", "the same on a gauge", "kPa"},
    {"liquid_kg_m3", "density of the liquid", "kg/m³"},
};

Result<CalcAnswers> run_vapour(const CalcInput& in) {
    const LpVapour vapour = TRY(lp_vapour(in.number("temperature_c")));
    return CalcAnswers{{"absolute_kpa", vapour.absolute_kpa},
                       {"gauge_kpa", vapour.gauge_kpa},
                       {"liquid_kg_m3", vapour.liquid_kg_m3}};
}

// ---- lp-leak ----

constexpr CalcKey kLeakKeys[] = {
    {.name = "mass_kg", .unit = "kg"},
    {.name = "temperature_c", .unit = "°C"},
    {.name = "room_m3", .unit = "m³"},
};
constexpr CalcResultKey kLeakResults[] = {
    {"vapour_m3", "vapour", "m³", up},
    {"percent_of_lower_limit", "share of the lower flammable limit, were it mixed evenly", "%", up, false},
    {"volume_at_lower_limit_m3", "air it can bring to that limit", "m³", up},
};

Result<CalcAnswers> run_leak(const CalcInput& in) {
    const LpLeak leak =
        TRY(lp_leak(in.number("mass_kg"), in.number("temperature_c"), in.number("room_m3")));
    return CalcAnswers{{"vapour_m3", leak.vapour_m3},
                       {"percent_of_lower_limit", leak.percent_of_lower_limit},
                       {"volume_at_lower_limit_m3", leak.volume_at_lower_limit_m3}};
}

// ---- lp-endurance ----

constexpr CalcKey kEnduranceKeys[] = {
    {.name = "mass_kg", .unit = "kg"},
    {.name = "burn_kg_h", .unit = "kg/h", .need = either, .note = "or power_kw and efficiency"},
    {.name = "power_kw", .unit = "kW", .need = either, .note = "at the shaft"},
    {.name = "efficiency", .unit = "", .need = either, .note = "a share of 1, of the lower heating value"},
};
constexpr CalcResultKey kEnduranceResults[] = {{"hours", "running time", "h", down}};

Result<double> burn_of(const CalcInput& in) {
    const bool power = in.has("power_kw") || in.has("efficiency");
    if (in.has("burn_kg_h") && !power) return in.number("burn_kg_h");
    if (in.has("burn_kg_h") || !in.has("power_kw") || !in.has("efficiency")) {
        return calc_misuse("burn_kg_h", "what is burnt in an hour is needed, said in one way",
                           "give burn_kg_h, or power_kw and efficiency");
    }
    return lp_burn_kg_h(in.number("power_kw"), in.number("efficiency"));
}

Result<CalcAnswers> run_endurance(const CalcInput& in) {
    const double burn_kg_h = TRY(burn_of(in));
    return CalcAnswers{{"hours", TRY(lp_endurance_h(in.number("mass_kg"), burn_kg_h))}};
}

// ---- cylinder-due ----

constexpr CalcKey kDueKeys[] = {
    {.name = "made", .unit = "YYYY-MM", .kind = month},
    {.name = "stamps", .unit = "YYYY-MM:method", .kind = stamps, .need = optional,
     .note = "once for every stamp; method: volumetric, proof or visual"},
    {.name = "first_years", .unit = "years", .kind = count, .need = optional, .fallback = "12"},
    {.name = "volumetric_years", .unit = "years", .kind = count, .need = optional, .fallback = "12"},
    {.name = "proof_years", .unit = "years", .kind = count, .need = optional, .fallback = "10"},
    {.name = "visual_years", .unit = "years", .kind = count, .need = optional, .fallback = "5"},
};
constexpr CalcResultKey kDueResults[] = {{"due", "due by the end of", ""}};

Result<CalcAnswers> run_due(const CalcInput& in) {
    const auto years = [&in](std::string_view key) { return static_cast<int>(in.number(key)); };
    const CylinderRule rule{years("first_years"), years("volumetric_years"), years("proof_years"),
                            years("visual_years")};
    const YearMonth made = TRY(parse_year_month(in.word("made")));
    return CalcAnswers{{"due", year_month_text(TRY(cylinder_due(made, in.stamps(), rule)))}};
}

// ---- battery-air ----

constexpr CalcKey kBatteryKeys[] = {
    {.name = "cells", .unit = "", .kind = count},
    {.name = "gassing_a", .unit = "A", .need = either, .note = "or capacity_ah and per_100ah"},
    {.name = "capacity_ah", .unit = "Ah", .need = either},
    {.name = "per_100ah", .unit = "A/100 Ah", .need = either},
    {.name = "standard", .unit = "2014 older", .kind = word, .need = optional, .fallback = "2014",
     .note = "0.055 or 0.05 m³/Ah"},
};
constexpr CalcResultKey kBatteryResults[] = {
    {"airflow_m3h", "air the room needs", "m³/h", up},
    {"opening_cm2", "opening, for inlet and outlet each", "cm²", up},
};

Result<double> current_of(const CalcInput& in) {
    const bool capacity = in.has("capacity_ah") || in.has("per_100ah");
    if (in.has("gassing_a") && !capacity) return in.number("gassing_a");
    if (in.has("gassing_a") || !in.has("capacity_ah") || !in.has("per_100ah")) {
        return calc_misuse("gassing_a", "the gassing current is needed, said in one way",
                           "give gassing_a, or capacity_ah and per_100ah");
    }
    return gassing_a(in.number("capacity_ah"), in.number("per_100ah"));
}

Result<CalcAnswers> run_battery(const CalcInput& in) {
    const auto standard =
        in.word("standard") == "older" ? ChargeStandard::older : ChargeStandard::y2014;
    const double current_a = TRY(current_of(in));
    const BatteryAir air =
        TRY(battery_air(static_cast<int>(in.number("cells")), current_a, standard));
    return CalcAnswers{{"airflow_m3h", air.airflow_m3h}, {"opening_cm2", air.opening_cm2}};
}

constexpr Calc kCalcs[] = {
    {"lp-vapour", "pressure and density of propane in a cylinder", kVapourKeys, kVapourResults,
     "Lemmon, McLinden and Wagner, J. Chem. Eng. Data 54 (2009), pure propane",
     "Commercial propane stands higher. A cylinder that is too full bursts at far lower temperatures than this says.",
     false, run_vapour},
    {"lp-leak", "what a leaking cylinder fills", kLeakKeys, kLeakResults,
     "second virial coefficient after Tsonopoulos (from memory); lower limit 2.15 %, NFPA 58 Annex B style table",
     "LP gas lies on the floor and is never mixed evenly: it burns there long before an average says so. Out, upwind.",
     true, run_leak},
    {"lp-endurance", "how long an engine runs on a cylinder", kEnduranceKeys, kEnduranceResults,
     "lower heating value 46.35 MJ/kg, from the equation of state of propane", "", false, run_endurance},
    {"cylinder-due", "when a cylinder falls due for requalification", kDueKeys, kDueResults,
     "49 CFR 180.209(e), (g) after HM-219B (secondary copies; first period from memory): to be checked locally",
     "Not due is not sound: what is dented, burnt, rusted or unreadable is given back.", false, run_due},
    {"battery-air", "air for a room where batteries are charged", kBatteryKeys, kBatteryResults,
     "IEC 62485-3:2014 (0.055) and EN 50272-3 (0.05)",
     "It covers no charger that has failed, and no flame or spark near the battery.", true, run_battery},
};

}  // namespace

std::span<const Calc> gas_calcs() { return kCalcs; }

}  // namespace holdpin
