// Air for a room in which lead-acid traction batteries are charged, so that hydrogen stays below
// 1 %: a quarter of its lower flammable limit of 4 %. Q = k n I in m³/h; k = 24 x 0.42e-3 x 5 =
// 0.05 m³/(A h) in EN 50272-3 (secondary copy), 0.055 in IEC 62485-3:2014 (trade association
// leaflet, read); opening 28 Q cm² each for air in and out, at 0.1 m/s (secondary copy).
// Valid for 1 to 500 cells, 0.001 to 500 A, 1 to 5000 Ah, 0.01 to 50 A a 100 Ah. The factor 5 in k
// is the standard's own margin; no error is added here. `gassing_a` is the current near the end
// of charge, from the charger's maker. It is no measurement and covers no charger that has failed.
#pragma once

#include "base/result.hpp"

namespace holdpin {

enum class ChargeStandard {
    y2014,  // IEC 62485-3:2014, k = 0.055
    older,  // EN 50272-3, k = 0.05
};

// The current that splits water: from the capacity and the ampere a hundred ampere-hours.
Result<double> gassing_a(double capacity_ah, double per_100ah);

struct BatteryAir {
    double airflow_m3h = 0;
    double opening_cm2 = 0;   // each of the two openings, where no fan moves the air
    double free_room_m3 = 0;  // the least free volume for openings alone, 2.5 Q (secondary copy)
};
Result<BatteryAir> battery_air(int cells, double gassing_a, ChargeStandard standard);

// Hydrogen that charging gives off, in m³/h, by Faraday's law as an ideal gas at 101.325 kPa:
// 0.41815 litres an ampere-hour and cell at 0 °C. Valid from -20 to 60 °C.
Result<double> charge_hydrogen_m3h(int cells, double gassing_a, double temperature_c);

}  // namespace holdpin
