// From the readings of a carbon monoxide meter: rolling means, and what they say about the room.
// The fit is least squares on the solution of the mass balance of room_air.hpp (K = 1: the airflow
// is the effective one), with source strength, airflow and first level unknown; its intervals are
// the usual ones from the linearised fit and Student's t with n − 3 degrees of freedom (textbook,
// from memory; the tests count how often they hold the truth). Units: minutes, ppm, m³, m³/h,
// L/min. It takes for granted that source and airflow stayed as they were while the readings were
// taken, and that the errors of the readings are alike and independent. A forecast is a planning
// estimate: it may hold or shorten, never lift a hold, and is no exposure record; the readings are.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "base/result.hpp"
#include "hazard/room_air.hpp"

namespace holdpin {

struct AirSample {
    double minute = 0;  // of the shift, rising from reading to reading
    double ppm = 0;     // 0 to 100,000; a zero is a reading
};

struct RollingMean {
    double minute = 0;
    double mean_15min_ppm = 0;
    double covered_15min = 0;  // minutes of the window that readings cover
    double mean_8h_ppm = 0;
    double covered_8h = 0;
};
// At each reading, over the 15 min and 8 h before it. Straight lines between readings; a gap longer
// than `longest_gap_min` (0.1 to 1,440) is not covered, as silence is no zero. A mean is that of
// the covered minutes; where none are, it is the reading itself.
Result<std::vector<RollingMean>> rolling_means(std::span<const AirSample> readings,
                                               double longest_gap_min);

struct Estimate {
    double value = 0;
    double low = 0;  // ends of the interval; source and airflow end at 0 where scatter goes below
    double high = 0;
};
struct FittedRoom {
    Estimate source_lmin;
    Estimate airflow_m3h;
    double start_ppm = 0;    // at the first reading, as fitted
    double end_ppm = 0;      // at the last
    double scatter_ppm = 0;  // of a reading about the curve, one standard deviation
    int readings = 0;
};
struct RoomToFit {
    double volume_m3 = 0;      // 1 to 10,000,000
    double outdoor_ppm = 0;    // 0 to 1,000
    double confidence = 0.95;  // of the intervals, 0.5 to 0.999
};
// From at least 5 readings. Refused where they do not tell the airflow from the source: the curve
// must bend. A source whose whole interval is below 0 is refused too.
Result<FittedRoom> fit_room(std::span<const AirSample> readings, const RoomToFit& room);

struct ShiftForecast {
    RoomAirForecast likely;
    RoomAirForecast unfavourable;  // highest source and lowest airflow of the intervals together
    double likely_8h_ppm = 0;      // readings so far and forecast, over 8 h
    double unfavourable_8h_ppm = 0;
};
// The `minutes_left` of the shift (0 to 1,440) with the fitted room, from its last fitted level.
Result<ShiftForecast> forecast_shift(std::span<const AirSample> readings, const RoomToFit& room,
                                     double minutes_left, double limit_ppm);

}  // namespace holdpin
