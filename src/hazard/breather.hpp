// Who breathes, and what air: lungs by activity, blood by build, pressure by altitude. All tables
// and formulas from the OSHA Salt Lake Technical Center, method note of the repository COHb (2025,
// read in full). Units stand in the names. Error: averages of adults; one person's lungs and blood
// may lie a quarter off. Blood and haemoglobin of a person are asked for a sum and kept nowhere.
#pragma once

#include <optional>
#include <string_view>

#include "base/result.hpp"
#include "hazard/cfk.hpp"

namespace holdpin {

enum class Activity { rest, light, moderate, heavy, very_heavy };
std::optional<Activity> activity_named(std::string_view name);  // "very-heavy"
std::string_view name_of(Activity activity);

enum class Sex { male, female };
// Grams of haemoglobin in 100 mL of blood where no value is known: 15.8 and 14.2.
double usual_hb_g_dl(Sex sex);

struct Ambient {
    double pressure_mmhg = 760;  // 400 to 800
    double o2_percent = 21;      // 15 to 100
};
// Of the standard atmosphere, from -500 to 5,000 m above the sea.
Result<double> pressure_mmhg_at(double altitude_m);

// As they stand in the equation: diffusing capacity of the lung, and ventilation of the alveoli in
// dry gas at 0 °C and 760 mmHg.
struct Lungs {
    double dl_ml_min_mmhg = 0;  // 1 to 200
    double va_l_min = 0;        // 0.5 to 200
};
// The table by activity (rest 20 mL/min/mmHg and 6 L/min, to very heavy 50 and 30), corrected for
// pressure and oxygen.
Result<Lungs> lungs_at(Activity activity, const Ambient& ambient);

// Litres of blood of an adult of 1.2 to 2.3 m and 30 to 250 kg.
struct Build {
    double height_m = 0;
    double mass_kg = 0;
    Sex sex = Sex::male;
};
Result<double> blood_l_of(const Build& build);

struct Breather {
    Ambient ambient;
    double hb_g_dl = 15.8;  // 3 to 25
    double blood_l = 5.5;   // 1 to 12
    Lungs lungs;
};
// The coefficients of the equation. Refuses air so thin that the capillary oxygen is below 10 mmHg.
Result<Cfk> cfk_of(const Breather& breather);

}  // namespace holdpin
