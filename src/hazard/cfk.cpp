#include "hazard/cfk.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace holdpin {

double Cfk::rate(double bound_co, double ppm) const {
    const double gained = own_ml_min + co_mmhg(ppm) / beta;
    const double lost =
        bound_co * capillary_o2_mmhg(ppm) / (affinity * beta * (capacity - bound_co));
    return (gained - lost) / blood_ml;
}

double Cfk::equilibrium(double ppm) const {
    const double drive = affinity * (own_ml_min * beta + co_mmhg(ppm));
    return capacity * drive / (drive + capillary_o2_mmhg(ppm));
}

double Cfk::equilibrium_ppm(double bound_co) const {
    const double free = capacity - bound_co;
    const double gas_mmhg =
        (bound_co * (o2_fraction * dry_mmhg - 49) - affinity * own_ml_min * beta * free) /
        (affinity * free + o2_fraction * bound_co);
    return gas_mmhg / dry_mmhg * 1e6;
}

// With B = E + (A − E)·e^(−z), E the equilibrium, the implicit solution becomes
//   z = (Q/R)·(tau + (A − E)·(1 − e^(−z))),
// whose right side never grows faster than z itself as long as A is below the capacity: one root,
// between 0 and the value at z = infinity (or, from below E, the value without the last term).
double Cfk::after(double start_bound, double ppm, double minutes) const {
    const double o2 = capillary_o2_mmhg(ppm);
    const double q = affinity * (own_ml_min * beta + co_mmhg(ppm)) + o2;
    const double steep = q / (capacity * o2);
    const double tau = minutes * q / (blood_ml * beta * affinity);
    const double end = equilibrium(ppm);
    const double gap = start_bound - end;
    double low = 0;
    double high = steep * (tau + std::max(0.0, gap));
    double z = high;
    for (int round = 0; round < 200 && high - low > 1e-15 * (1 + high); ++round) {
        const double miss = z + steep * gap * std::expm1(-z) - steep * tau;
        (miss > 0 ? high : low) = z;
        const double slope = 1 - steep * gap * std::exp(-z);
        const double newton = z - miss / slope;
        if (std::abs(newton - z) <= 1e-16 * (1 + z)) break;
        z = newton > low && newton < high ? newton : (low + high) / 2;
    }
    return end + gap * std::exp(-z);
}

double Cfk::half_time_min() const {
    return std::numbers::ln2 * affinity * capacity * blood_ml * beta / capillary_o2_mmhg(0);
}

}  // namespace holdpin
