// What a leaking cylinder fills: the vapour of its propane, and the air that vapour can bring to
// the lower flammable limit. Real gas at 101.325 kPa with the second virial coefficient after
// Tsonopoulos (AIChE J. 20, 1974; from memory), within 0.3 % of the equation of state; lower
// limit 2.15 % by volume, table of approximate properties of LP-gases (NFPA 58 Annex B style,
// read in two secondary copies). Valid from 0.01 to 20 000 kg, -42 to 60 °C, 1 to 10 million m³.
// The room's figure is an average of gas that is in truth never mixed: it is 1.5 times as heavy as
// air and lies on the floor, where a small leak burns long before the average says so. It is for
// planning alone and never a sign that a room may be entered.
#pragma once

#include "base/result.hpp"

namespace holdpin {

constexpr double kPropaneLowerLimit_percent = 2.15;  // of the volume of air and gas

// The volume of so much propane as vapour, at 101.325 kPa.
Result<double> lp_vapour_volume_m3(double mass_kg, double temperature_c);

struct LpLeak {
    double vapour_m3 = 0;
    double percent_of_lower_limit = 0;    // average over the room: 100 is the limit
    double volume_at_lower_limit_m3 = 0;  // the room in which it would be at the limit throughout
};
Result<LpLeak> lp_leak(double mass_kg, double temperature_c, double room_m3);

// Vapour's density against air of the same temperature, ideal gases: 1.52. From molar masses.
double lp_relative_density();
// Volumes of air that burn one volume of propane completely: C3H8 + 5 O2, air of 20.95 % oxygen.
double lp_air_to_burn();

}  // namespace holdpin
