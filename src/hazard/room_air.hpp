// Build-up of carbon monoxide in one room: V·dC/dt = G + (Q/K)·(C_out − C), solved exactly.
// Source: the general dilution balance of the ACGIH Industrial Ventilation manual, ch. 2 (from
// memory); K as in CDC MMWR 1994;43(RR-13) table S3-1 (read): 1 well mixed, up to 10 poorly mixed.
// Units: m³, m³/h, litres of carbon monoxide a minute, minutes, ppm by volume.
// Range: each field below; an end above 100,000 ppm is refused, as the gas would then displace the
// air that the balance takes as given (error grows with the fraction of gas: 10 % there, below
// 0.1 % where people work). Error of a real room: K is a guess, and near the exhaust it is worse.
// A planning estimate: no measurement, no clearance to enter. Show time to a limit rounded down.
#pragma once

#include <optional>

#include "base/result.hpp"
#include "hazard/air_course.hpp"

namespace holdpin {

struct RoomAir {
    double volume_m3 = 0;    // 1 to 10,000,000
    double airflow_m3h = 0;  // outdoor air, 0 (closed) to 100,000,000
    double source_lmin = 0;  // 0 to 10,000; from g/h with co_lmin_of_gh
    double outdoor_ppm = 0;  // 0 to 100,000, as start_ppm
    double start_ppm = 0;
    double mixing = 1;  // K, 1 to 10
};

struct RoomAirForecast {
    double end_ppm = 0;
    double mean_ppm = 0;
    // Absent for a closed room with a source, and where the air would have to be all gas.
    std::optional<double> steady_ppm;
    // Until the air is at or above the limit: 0 where it is now, absent where it never will be.
    std::optional<double> minutes_to_limit;
};

// The course of the air from now on, to be drawn or breathed.
Result<AirCourse> air_course(const RoomAir& room);

// After `minutes` (0 to 10,080, a week). `limit_ppm` above 0, up to 100,000.
Result<RoomAirForecast> room_air(const RoomAir& room, double minutes,
                                 std::optional<double> limit_ppm = std::nullopt);

}  // namespace holdpin
