// Cleaning concentrate for a tank. Trade charts use two conventions, and a label must say which:
// in parts: 1 part in (1 + r) parts of solution, the exact way; the tank holds solution.
// Per water: 1 part to r parts of water, 128/r US fluid ounces a gallon; the tank counts water.
// Formulas: trade dilution charts, read. Valid for r from 1 to 10 000 and tanks of 0.01 to
// 20 000 litres; volumes are taken to add up, exact within 1 % for cleaning solutions. It knows
// no product: the label's own figures, and never two products in one tank, come first.
#pragma once

#include "base/result.hpp"

namespace holdpin {

enum class MixConvention {
    in_parts,   // concentrate and water together fill the tank
    per_water,  // the tank's litres are water, concentrate comes on top
};

struct Mix {
    double concentrate_l = 0;
    double percent = 0;  // of the solution, by volume
};
Result<Mix> mix(double ratio, MixConvention convention, double tank_l);

// Parts of a million of active matter in the solution, from its percentage in the concentrate
// (0.001 to 100). The per-water charts count against the water alone, and so does this.
Result<double> active_ppm(double active_percent, double ratio, MixConvention convention);

// The ratio that so much concentrate in a tank stands for: the inverse of mix().
Result<double> mix_ratio(double concentrate_l, MixConvention convention, double tank_l);

}  // namespace holdpin
