#include "hazard/units.hpp"

namespace holdpin {
namespace {

struct Conversion {
    std::string_view metric;
    std::string_view us;
    double factor;      // of the customary unit in one metric
    double offset = 0;  // customary at metric zero
};

constexpr double kFeet_m = 1.0 / 0.3048;
constexpr double kFeet2_m2 = kFeet_m * kFeet_m;
constexpr double kFeet3_m3 = kFeet_m * kFeet_m * kFeet_m;
constexpr double kGallons_l = 1.0 / 3.785411784;
constexpr double kPounds_kg = 1.0 / 0.45359237;
constexpr double kPsi_kpa = 1.0 / 6.894757293168361;

constexpr Conversion kConversions[] = {
    {"°C", "°F", 1.8, 32.0},
    {"kPa", "psi", kPsi_kpa},
    {"MPa", "psi", 1000.0 * kPsi_kpa},
    {"m", "ft", kFeet_m},
    {"m²", "ft²", kFeet2_m2},
    {"m²/h", "ft²/h", kFeet2_m2},
    {"m³", "ft³", kFeet3_m3},
    {"m³/h", "ft³/min", kFeet3_m3 / 60.0},
    {"cm²", "in²", 1.0 / 6.4516},
    {"L", "gal", kGallons_l},
    {"kg", "lb", kPounds_kg},
    {"kg/m³", "lb/gal", kPounds_kg / (1000.0 * kGallons_l)},
    {"N", "lbf", kPounds_kg / 9.80665},
};

const Conversion* conversion(UnitSystem system, std::string_view unit) {
    if (system == UnitSystem::metric) return nullptr;
    for (const Conversion& each : kConversions) {
        if (each.metric == unit) return &each;
    }
    return nullptr;
}

}  // namespace

Shown shown_in(UnitSystem system, double value, std::string_view unit) {
    const Conversion* found = conversion(system, unit);
    if (found == nullptr) return {value, unit};
    return {value * found->factor + found->offset, found->us};
}

double value_from(UnitSystem system, double shown, std::string_view unit) {
    const Conversion* found = conversion(system, unit);
    return found == nullptr ? shown : (shown - found->offset) / found->factor;
}

}  // namespace holdpin
