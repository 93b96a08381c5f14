#include "hazard/lp_endurance.hpp"

#include "hazard/valid_range.hpp"

namespace holdpin {
namespace {

constexpr ValidRange kMass = {"mass_kg", "kg", 0.1, 500.0};
constexpr ValidRange kBurn = {"burn_kg_h", "kg/h", 0.02, 100.0};
constexpr ValidRange kPower = {"power_kw", "kW", 0.1, 500.0};
constexpr ValidRange kEfficiency = {"efficiency", "", 0.05, 0.6};
constexpr ValidRange kWater = {"water_kg", "kg", 0.1, 1000.0};
constexpr ValidRange kWaterVolume = {"water_volume", "", 0.1, 1e6};
constexpr ValidRange kDensity = {"filling_density", "", 0.3, 0.6};
constexpr ValidRange kGravity = {"specific_gravity", "", 0.45, 0.65};
constexpr ValidRange kCorrection = {"correction", "", 0.8, 1.2};
constexpr double kSeconds_h = 3600.0;

}  // namespace

Result<double> lp_endurance_h(double mass_kg, double burn_kg_h) {
    TRY(refuse_outside(kMass, mass_kg));
    TRY(refuse_outside(kBurn, burn_kg_h));
    return mass_kg / burn_kg_h;
}

Result<double> lp_burn_kg_h(double power_kw, double efficiency) {
    TRY(refuse_outside(kPower, power_kw));
    TRY(refuse_outside(kEfficiency, efficiency));
    return power_kw * kSeconds_h / (efficiency * kPropaneLowerHeat_mj_kg * 1000.0);
}

Result<double> lp_fill_kg(double water_kg, double filling_density) {
    TRY(refuse_outside(kWater, water_kg));
    TRY(refuse_outside(kDensity, filling_density));
    return water_kg * filling_density;
}

Result<double> lp_fill_volume(const LpFilling& filling) {
    TRY(refuse_outside(kWaterVolume, filling.water_volume));
    TRY(refuse_outside(kDensity, filling.filling_density));
    TRY(refuse_outside(kGravity, filling.specific_gravity));
    TRY(refuse_outside(kCorrection, filling.correction));
    return filling.water_volume * filling.filling_density /
           (filling.specific_gravity * filling.correction);
}

}  // namespace holdpin
