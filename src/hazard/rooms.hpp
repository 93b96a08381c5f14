// Joined rooms: doors and fans between well-mixed rooms and outdoors, as the linear network
//   dC/dt = A·C + b,   A from the airflows over the volumes, b from sources and outdoor air.
// Each interval between two switchings of an engine is solved exactly by the matrix exponential; it
// is no step method, so that a cupboard with a fan and a hall over a shift go together (stiff).
// Source: the mass balance of room_air.hpp, once for each room. Units: m³, m³/h, L/min, minutes,
// ppm. Range: 1 to 200 rooms, up to a week; as much air comes into a room as leaves it. Error: 1e-9
// of the numbers; the airflow through a door is a guess: use the windless value, look again every
// 30 minutes. For incomplete mixing give airflow/K. A planning estimate, no clearance to enter.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "base/result.hpp"

namespace holdpin {

struct JoinedRoom {
    double volume_m3 = 0;  // 1 to 10,000,000
    double start_ppm = 0;  // 0 to 100,000
};

inline constexpr int kOutdoors = -1;
// Air that goes one way, from room `from` to room `to`; each an index, or kOutdoors.
struct Airflow {
    int from = kOutdoors;
    int to = kOutdoors;
    double airflow_m3h = 0;  // 0 to 100,000,000
};

// An engine that runs from one minute to another.
struct TimedSource {
    int room = 0;
    double source_lmin = 0;  // 0 to 10,000
    double from_min = 0;
    double to_min = 0;  // not before from_min
};

struct JoinedRooms {
    std::vector<JoinedRoom> rooms;
    std::vector<Airflow> airflows;
    std::vector<TimedSource> sources;
    double outdoor_ppm = 0;  // 0 to 100,000

    // An open door, or outdoors through a door: the same air both ways.
    void exchange(int one, int other, double airflow_m3h);
};

struct RoomsForecast {
    std::vector<double> minutes;           // 0, every step, and the end
    std::vector<std::vector<double>> ppm;  // [point][room]
    std::vector<double> mean_ppm;          // [room], over the whole time
    std::vector<std::vector<double>> dose_ppm_min;  // [point][room], what was breathed so far
};
// Over `minutes` (0.01 to 10,080), a point every `step_min` (0.01 to 1,440; at most 20,000 points).
// Refused where a room does not get as much air as it gives (to a millionth), where an index names
// no room, and above 100,000 ppm.
Result<RoomsForecast> forecast_rooms(const JoinedRooms& site, double minutes, double step_min);

// The last point at which the room was below the limit before it first came to it: already rounded
// down by up to a step. 0 where it is over at once; absent where it stays below.
std::optional<double> minutes_below(const RoomsForecast& forecast, std::size_t room,
                                    double limit_ppm);

}  // namespace holdpin
