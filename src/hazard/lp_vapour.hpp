// Propane that boils in a closed cylinder: the pressure over the liquid and the liquid's density.
// Equation: ancillary equations for propane of Lemmon, McLinden and Wagner, J. Chem. Eng. Data 54
// (2009), as functions of theta = 1 - T/Tc; they follow the equation of state within 0.02 % in
// pressure and 0.1 % in density. Valid from 200 K (-73.15 °C) to the critical point (96.74 °C).
// This is pure propane. Commercial propane holds lighter gases too and stands higher (127 psig
// against 110 psig at 70 °F): a gauge on a real cylinder may read more than this. It says nothing
// about a cylinder that is full of liquid, where pressure rises far beyond.
#pragma once

#include "base/result.hpp"

namespace holdpin {

// What other sums need of propane. Molar mass and critical point: the paper above.
constexpr double kPropane_kg_mol = 0.04409562;
constexpr double kPropaneCritical_k = 369.89;
constexpr double kPropaneCritical_pa = 4.2512e6;
constexpr double kAtmosphere_kpa = 101.325;
constexpr double kZeroCelsius_k = 273.15;
constexpr double kGasConstant_j_mol_k = 8.314462618;

struct LpVapour {
    double absolute_kpa = 0;
    double gauge_kpa = 0;  // over 101.325 kPa; below zero under -42.1 °C: no vapour leaves
    double liquid_kg_m3 = 0;
};
Result<LpVapour> lp_vapour(double temperature_c);

}  // namespace holdpin
