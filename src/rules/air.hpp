// What the air of a room allows: the forecast with every engine released into it, against the
// levels at which the site acts. A forecast may hold or shorten a release; it never lifts a hold
// that a measurement has set. A planning estimate: no measurement, no clearance to enter.
// The average counts over eight hours (NIOSH REL, from memory), the ceiling at every moment.
#pragma once

#include <optional>
#include <vector>

#include "base/local_time.hpp"
#include "content_types/content.hpp"

namespace holdpin {

// A tailpipe test of one machine.
struct TailpipeTest {
    double co_lmin = 0;
    Date on;
};

// Litres of carbon monoxide a minute to count with: the test while it is in date, else the upper
// value of the class. 0 for a class without an engine.
double source_lmin(const MachineClass& machine_class, const std::optional<TailpipeTest>& test,
                   const AirPolicy& policy, Date today);

struct DoorState {
    std::string id;
    bool open = false;
    std::int64_t read_ms = 0;
};
// Read open, and not longer ago than the site lets it count; after that nobody knows.
bool counts_as_open(const DoorState& door, const AirPolicy& policy, std::int64_t now_ms);
// Outdoor air with the doors that were read open within the site's time.
double airflow_now(const Room& room, const std::vector<DoorState>& doors, const AirPolicy& policy,
                   std::int64_t now_ms);

struct AirQuestion {
    const Room* room = nullptr;
    double airflow_m3h = 0;
    double source_lmin = 0;
    double start_ppm = 0;
    double minutes = 0;  // to the end of the shift
    AirPolicy policy;
};
struct AirForecast {
    double end_ppm = 0;
    // Whole minutes, rounded down, until a level is passed; absent: not within the time asked for.
    std::optional<int> minutes_to_level;
    double level_ppm = 0;     // the level that is passed first
    bool is_average = true;   // of eight hours; else the ceiling
};
// Error where a figure of the room is outside what the balance takes; see hazard/room_air.hpp.
Result<AirForecast> forecast_air(const AirQuestion& question);

}  // namespace holdpin
