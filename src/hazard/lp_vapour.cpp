#include "hazard/lp_vapour.hpp"

#include <cmath>
#include <span>

#include "hazard/valid_range.hpp"

namespace holdpin {
namespace {

struct Term {
    double n;
    double t;
};

constexpr Term kPressure[] = {
    {-23.998635747391152, 1.05},  {18.313017605233238, 1.084}, {-0.42240851966839504, 2.259},
    {-2.7378298813798962, 4.287}, {0.257888414168987, 7.66},   {-1.3113462226130785, 18.584},
};
constexpr Term kLiquid[] = {
    {2.104068052280433, 0.368},  {0.3371892411622086, 0.875}, {0.4401223810964251, 3.009},
    {-3.5679018989260567, 9.51}, {59.93889697061387, 15.381}, {-70.9402469085883, 17.001},
};
constexpr double kReducing_mol_m3 = 5000.0;
// 200 K and the critical point, as decimals, so that whoever types them is not refused.
constexpr ValidRange kTemperature = {"temperature_c", "°C", -73.15, 96.74};

double series(std::span<const Term> terms, double theta) {
    double sum = 0;
    for (const Term& term : terms) sum += term.n * std::pow(theta, term.t);
    return sum;
}

}  // namespace

Result<LpVapour> lp_vapour(double temperature_c) {
    TRY(refuse_outside(kTemperature, temperature_c));
    const double kelvin = temperature_c + kZeroCelsius_k;
    const double theta = std::fmax(0.0, 1.0 - kelvin / kPropaneCritical_k);
    const double absolute_pa =
        kPropaneCritical_pa * std::exp(kPropaneCritical_k / kelvin * series(kPressure, theta));
    LpVapour vapour;
    vapour.absolute_kpa = absolute_pa / 1000.0;
    vapour.gauge_kpa = vapour.absolute_kpa - kAtmosphere_kpa;
    vapour.liquid_kg_m3 = kReducing_mol_m3 * kPropane_kg_mol * (1.0 + series(kLiquid, theta));
    return vapour;
}

}  // namespace holdpin
