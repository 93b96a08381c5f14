// What an LP cylinder may hold, and how long an engine runs on it.
// Filling: mass = water capacity x filling density, 42 % for propane (29 CFR 1910.110(b)(12) and
// (b)(19), worked example read). Running: mass over the mass burnt in an hour; from power, the
// lower heating value of propane, 46.35 MJ/kg (computed from the equation of state; the trade
// tables agree within 1.5 %). Valid: 0.1 to 500 kg, 0.02 to 100 kg/h, 0.1 to 500 kW, efficiency
// 0.05 to 0.6 as a share of 1. An hour's burn is what the machine's manual or a weighed cylinder
// says: from power it is a guess good to a quarter, for no engine runs at one load.
#pragma once

#include "base/result.hpp"

namespace holdpin {

constexpr double kPropaneLowerHeat_mj_kg = 46.35;
constexpr double kPropaneHigherHeat_mj_kg = 50.35;

// Hours on `mass_kg` of propane when `burn_kg_h` of it is burnt in an hour.
Result<double> lp_endurance_h(double mass_kg, double burn_kg_h);

// Kilogrammes an hour for `power_kw` at the shaft. `efficiency`: shaft work per lower heat.
Result<double> lp_burn_kg_h(double power_kw, double efficiency);

// The most propane for a cylinder of so much water. `filling_density` as a share of 1: 0.42.
Result<double> lp_fill_kg(double water_kg, double filling_density);

// The most liquid, in the unit of `water_volume`, at the liquid's present temperature.
struct LpFilling {
    double water_volume = 0;         // capacity, in any unit of volume
    double filling_density = 0.42;   // share of the mass of water of 60 °F
    double specific_gravity = 0.51;  // of the liquid at 60 °F, water of 60 °F being 1
    double correction = 1.0;         // volume at 60 °F per volume now (1.031 at 40 °F)
};
Result<double> lp_fill_volume(const LpFilling& filling);

}  // namespace holdpin
