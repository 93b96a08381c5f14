// Airing a room with every source off: t = K·ln(C1/C2)/ACH, the build-up turned round.
// Source: CDC MMWR 1994;43(RR-13) table S3-1 (read) and the same rows in CDC 2003, Environmental
// Infection Control, appendix B table B.1 (read); K from 1 (well mixed) to 10 as CDC gives it.
// Units: air changes an hour, ppm, percent, minutes. Outdoor air is taken as clean; where it is
// not, subtract its ppm from both ends first. Error: exact for a room that mixes as K says. An
// estimate for planning: the room is opened again by a measured reading, never by this time. Show
// the time rounded up.
#pragma once

#include "base/result.hpp"

namespace holdpin {

struct Airing {
    double ach = 0;     // air changes an hour, 0.001 to 1,000
    double mixing = 1;  // K, 1 to 10
};

// Air changes an hour of a room of 1 to 10,000,000 m³ with 0.001 to 100,000,000 m³/h.
Result<double> air_changes(double volume_m3, double airflow_m3h);

// Minutes from `from_ppm` down to `to_ppm`; both 0.001 to 1,000,000, and to_ppm not above from_ppm.
Result<double> purge_minutes(const Airing& airing, double from_ppm, double to_ppm);

// Minutes until `percent` (0 to 99.9999) of what is in the air is out.
Result<double> removal_minutes(const Airing& airing, double percent);

}  // namespace holdpin
