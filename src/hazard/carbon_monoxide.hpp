// Carbon monoxide as a gas: parts per million against milligrams, grams against litres, and what an
// exhaust gives off. Ideal gas at 25 °C and 760 mmHg, molar mass 28.01 g/mol and molar volume
// 24.45 L/mol: the basis of OSHA Table Z-1 (its footnotes, read) and of the NIOSH figures.
// Error: exact for that state of the air. A cold hall at 5 °C holds 7 % more milligrams to the ppm.
// The EU and OSHA print some milligrams on another basis or rounded (EU: 117 mg/m³ for 100 ppm), so
// that ppm decide here and milligrams are for reading.
#pragma once

#include "base/result.hpp"

namespace holdpin {

inline constexpr double kCoGramsPerMole = 28.01;
inline constexpr double kLitresPerMole = 24.45;

// mg/m³ of a concentration of 0 to 1,000,000 ppm, and back (0 to 1,200,000 mg/m³).
Result<double> co_mg_m3(double ppm);
Result<double> co_ppm(double mg_m3);

// Source strength: litres a minute from grams an hour (0 to 1,000,000 g/h), and back
// (0 to 10,000 L/min).
Result<double> co_lmin_of_gh(double grams_per_hour);
Result<double> co_gh_of_lmin(double litres_per_minute);

// Litres of carbon monoxide a minute in an exhaust of `percent` by volume (0 to 20) and
// `flow_lmin` (0 to 100,000), both in the same state of the gas. Propane lift trucks measured by
// Fawcett et al. 1992 (J Occup Med 34:12-15, read): 16 L/min idling, 61 L/min working, with
// percentages from 0.02 to 9: without a tailpipe test in date, the upper value counts.
Result<double> exhaust_co_lmin(double percent, double flow_lmin);

}  // namespace holdpin
