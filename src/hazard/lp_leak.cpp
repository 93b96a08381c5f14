#include "hazard/lp_leak.hpp"

#include <cmath>

#include "hazard/lp_vapour.hpp"
#include "hazard/valid_range.hpp"

namespace holdpin {
namespace {

constexpr ValidRange kMass = {"mass_kg", "kg", 0.01, 20'000.0};
// Below -42 °C propane lies there as liquid at the pressure of the air.
constexpr ValidRange kTemperature = {"temperature_c", "°C", -42.0, 60.0};
constexpr ValidRange kRoom = {"room_m3", "m³", 1.0, 1e7};
constexpr double kAcentric = 0.1521;  // propane
constexpr double kAir_kg_mol = 0.0289647;
constexpr double kOxygenToBurn = 5.0;
constexpr double kOxygenOfAir = 0.2095;

// Compressibility at the pressure of the air: 1 less the pull between the molecules.
double compressibility(double kelvin) {
    const double reduced = kelvin / kPropaneCritical_k;
    const double simple = 0.1445 - 0.330 / reduced - 0.1385 / std::pow(reduced, 2) -
                          0.0121 / std::pow(reduced, 3) - 0.000607 / std::pow(reduced, 8);
    const double shape = 0.0637 + 0.331 / std::pow(reduced, 2) - 0.423 / std::pow(reduced, 3) -
                         0.008 / std::pow(reduced, 8);
    const double pull = simple + kAcentric * shape;
    return 1.0 + pull * kAtmosphere_kpa * 1000.0 / kPropaneCritical_pa / reduced;
}

}  // namespace

Result<double> lp_vapour_volume_m3(double mass_kg, double temperature_c) {
    TRY(refuse_outside(kMass, mass_kg));
    TRY(refuse_outside(kTemperature, temperature_c));
    const double kelvin = temperature_c + kZeroCelsius_k;
    const double ideal_m3 =
        mass_kg / kPropane_kg_mol * kGasConstant_j_mol_k * kelvin / (kAtmosphere_kpa * 1000.0);
    return compressibility(kelvin) * ideal_m3;
}

Result<LpLeak> lp_leak(double mass_kg, double temperature_c, double room_m3) {
    LpLeak leak;
    leak.vapour_m3 = TRY(lp_vapour_volume_m3(mass_kg, temperature_c));
    TRY(refuse_outside(kRoom, room_m3));
    leak.volume_at_lower_limit_m3 = leak.vapour_m3 / (kPropaneLowerLimit_percent / 100.0);
    leak.percent_of_lower_limit = 100.0 * leak.volume_at_lower_limit_m3 / room_m3;
    return leak;
}

double lp_relative_density() { return kPropane_kg_mol / kAir_kg_mol; }

double lp_air_to_burn() { return kOxygenToBurn / kOxygenOfAir; }

}  // namespace holdpin
