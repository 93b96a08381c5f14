// What the air of a room allows: the forecast with every engine released into it and into the rooms
// that are joined to it by open doors and running fans, against the levels at which the site acts.
// A forecast may hold or shorten a release; it never lifts a hold that a measurement has set. A
// planning estimate: no measurement, no clearance to enter.
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
// Read not longer ago than the site lets it count; after that nobody knows.
bool still_counts(const DoorState& door, const AirPolicy& policy, std::int64_t now_ms);
// Read open, and it still counts.
bool counts_as_open(const DoorState& door, const AirPolicy& policy, std::int64_t now_ms);
// Outdoor air with the doors to outdoors that count as open.
double airflow_now(const Room& room, const std::vector<DoorState>& doors, const AirPolicy& policy,
                   std::int64_t now_ms);

struct RoomNow {
    const Room* room = nullptr;
    double airflow_m3h = 0;  // from outdoors
    double source_lmin = 0;
    double start_ppm = 0;
};
// A door that is open or a fan that runs between two of the rooms of a question.
struct WayNow {
    std::size_t from = 0;
    std::size_t to = 0;
    double airflow_m3h = 0;
    bool fan = false;    // only from `from` to `to`; as much outdoor air follows, and leaves
    bool known = true;   // false: nobody has looked in time; it counts as whichever is worse
};
struct AirQuestion {
    std::vector<RoomNow> rooms;  // the first one is asked about
    std::vector<WayNow> ways;    // the nearest first
    double minutes = 0;          // to the end of the shift
    AirPolicy policy;
};
struct AirForecast {
    double end_ppm = 0;
    // Whole minutes, rounded down, until a level is passed; absent: not within the time asked for.
    std::optional<int> minutes_to_level;
    double level_ppm = 0;     // the level that is passed first
    bool is_average = true;   // of eight hours; else the ceiling
};
// Of ways that are not known, the four nearest are tried open and shut in every combination and the
// worst counts; any further ones count as open. Error where a figure of a room is outside what the
// balance takes; see hazard/rooms.hpp.
Result<AirForecast> forecast_air(const AirQuestion& question);

}  // namespace holdpin
