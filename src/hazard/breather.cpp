#include "hazard/breather.hpp"

#include <array>
#include <cmath>

#include "hazard/valid_range.hpp"

namespace holdpin {

namespace {

constexpr double kWaterMmhg = 47;            // of the air in a lung
constexpr double kCapacityMlPerGram = 1.38;  // CO that a gram of haemoglobin binds

constexpr ValidRange kPressure{"pressure_mmhg", "mmHg", 400, 800};
constexpr ValidRange kOxygen{"o2_percent", "%", 15, 100};
constexpr ValidRange kAltitude{"altitude_m", "m", -500, 5000};
constexpr ValidRange kDiffusing{"dl_ml_min_mmhg", "mL/min/mmHg", 1, 200};
constexpr ValidRange kVentilation{"va_l_min", "L/min", 0.5, 200};
constexpr ValidRange kHaemoglobin{"hb_g_dl", "g/dL", 3, 25};
constexpr ValidRange kBlood{"blood_l", "L", 1, 12};
constexpr ValidRange kHeight{"height_m", "m", 1.2, 2.3};
constexpr ValidRange kMass{"mass_kg", "kg", 30, 250};

struct ActivityRow {
    Activity activity;
    std::string_view name;
    double dl_ml_min_mmhg;
    double va_l_min;
};
constexpr std::array<ActivityRow, 5> kActivities{{
    {Activity::rest, "rest", 20, 6},
    {Activity::light, "light", 25, 12},
    {Activity::moderate, "moderate", 30, 18},
    {Activity::heavy, "heavy", 40, 24},
    {Activity::very_heavy, "very-heavy", 50, 30},
}};

const ActivityRow& row_of(Activity activity) {
    return kActivities[static_cast<std::size_t>(activity)];
}

Result<void> checked(const Ambient& ambient) {
    TRY(refuse_outside(kPressure, ambient.pressure_mmhg));
    return refuse_outside(kOxygen, ambient.o2_percent);
}

// More oxygen in the lung lets less carbon monoxide through. Above 21 % the source's program adds
// the square term.
double oxygen_divisor(const Ambient& ambient) {
    const double fraction = ambient.o2_percent / 100;
    const double excess = fraction * (ambient.pressure_mmhg - kWaterMmhg) - 150;
    const double square = fraction > 0.21 ? 1.27624e-5 * excess : 0;
    return 1 + (0.0031 + square) * excess;
}

}  // namespace

std::optional<Activity> activity_named(std::string_view name) {
    for (const ActivityRow& row : kActivities) {
        if (row.name == name) return row.activity;
    }
    return std::nullopt;
}

std::string_view name_of(Activity activity) { return row_of(activity).name; }

double usual_hb_g_dl(Sex sex) { return sex == Sex::male ? 15.8 : 14.2; }

Result<double> pressure_mmhg_at(double altitude_m) {
    TRY(refuse_outside(kAltitude, altitude_m));
    constexpr double kLapse = 0.0065;                                           // K/m
    constexpr double kExponent = 9.80665 * 0.0289644 / (8.314462618 * kLapse);  // g·M/(R·lapse)
    return 760 * std::pow((288.15 - kLapse * altitude_m) / 288.15, kExponent);
}

Result<Lungs> lungs_at(Activity activity, const Ambient& ambient) {
    TRY(checked(ambient));
    const ActivityRow& row = row_of(activity);
    const double dry_and_cold = (ambient.pressure_mmhg - kWaterMmhg) / 760 * 273.15 / 310.15;
    return Lungs{row.dl_ml_min_mmhg / oxygen_divisor(ambient), row.va_l_min * dry_and_cold};
}

Result<double> blood_l_of(const Build& build) {
    TRY(refuse_outside(kHeight, build.height_m));
    TRY(refuse_outside(kMass, build.mass_kg));
    const double cube = std::pow(build.height_m, 3);
    const double ml = build.sex == Sex::male ? 366.9 * cube + 32.19 * build.mass_kg + 604.1
                                             : 356.1 * cube + 33.08 * build.mass_kg + 183.3;
    return ml / 1000;
}

Result<Cfk> cfk_of(const Breather& breather) {
    TRY(checked(breather.ambient));
    TRY(refuse_outside(kDiffusing, breather.lungs.dl_ml_min_mmhg));
    TRY(refuse_outside(kVentilation, breather.lungs.va_l_min));
    TRY(refuse_outside(kHaemoglobin, breather.hb_g_dl));
    TRY(refuse_outside(kBlood, breather.blood_l));
    Cfk cfk;
    cfk.dry_mmhg = breather.ambient.pressure_mmhg - kWaterMmhg;
    cfk.o2_fraction = breather.ambient.o2_percent / 100;
    cfk.beta = 1 / breather.lungs.dl_ml_min_mmhg + cfk.dry_mmhg / (breather.lungs.va_l_min * 1000);
    cfk.capacity = kCapacityMlPerGram * breather.hb_g_dl / 100;
    cfk.blood_ml = breather.blood_l * 1000;
    constexpr double kLeastO2Mmhg = 10;
    if (cfk.capillary_o2_mmhg(0) < kLeastO2Mmhg) {
        return Error{ErrorKind::invalid, "this air has too little oxygen for the uptake sum", "",
                     "check pressure_mmhg, altitude_m and o2_percent"};
    }
    return cfk;
}

}  // namespace holdpin
