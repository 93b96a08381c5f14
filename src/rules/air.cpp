#include "rules/air.hpp"

#include <algorithm>
#include <cmath>

#include "hazard/room_air.hpp"

namespace holdpin {
namespace {

constexpr double kAverageMinutes = 480;  // the time over which the average counts

// The dose so far, in ppm minutes, after `minutes`.
Result<double> dose(const RoomAir& room, double minutes) {
    return TRY(room_air(room, minutes)).mean_ppm * minutes;
}

// The minute in which the dose of a full day's average is reached; the dose only grows.
Result<std::optional<double>> minutes_to_dose(const RoomAir& room, double wanted, double most) {
    if (TRY(dose(room, most)) < wanted) return std::optional<double>();
    double low = 0;
    double high = most;
    while (high - low > 0.01) {
        const double middle = (low + high) / 2;
        (TRY(dose(room, middle)) < wanted ? low : high) = middle;
    }
    return std::optional(low);
}

}  // namespace

double source_lmin(const MachineClass& machine_class, const std::optional<TailpipeTest>& test,
                   const AirPolicy& policy, Date today) {
    if (!machine_class.engine) return 0;
    const bool in_date = test && today <= add_months(test->on, policy.tailpipe_months);
    return in_date ? test->co_lmin : machine_class.engine->co_upper_lmin;
}

bool counts_as_open(const DoorState& door, const AirPolicy& policy, std::int64_t now_ms) {
    return door.open && now_ms - door.read_ms <= policy.doors_minutes * 60'000LL;
}

double airflow_now(const Room& room, const std::vector<DoorState>& doors, const AirPolicy& policy,
                   std::int64_t now_ms) {
    double airflow = room.airflow_m3h;
    for (const Door& door : room.doors) {
        const bool open = std::any_of(doors.begin(), doors.end(), [&](const DoorState& state) {
            return state.id == door.id && counts_as_open(state, policy, now_ms);
        });
        if (open) airflow += door.airflow_m3h;
    }
    return airflow;
}

Result<AirForecast> forecast_air(const AirQuestion& question) {
    const AirPolicy& policy = question.policy;
    RoomAir room;
    room.volume_m3 = question.room->volume_m3;
    room.airflow_m3h = question.airflow_m3h;
    room.source_lmin = question.source_lmin;
    room.start_ppm = question.start_ppm;
    room.mixing = question.room->mixing;
    const RoomAirForecast air = TRY(room_air(room, question.minutes, policy.ceiling_ppm));
    AirForecast forecast;
    forecast.end_ppm = air.end_ppm;
    forecast.level_ppm = policy.average_ppm;
    std::optional<double> minutes = TRY(
        minutes_to_dose(room, policy.average_ppm * kAverageMinutes, question.minutes));
    const auto ceiling = air.minutes_to_limit;
    if (ceiling && *ceiling <= question.minutes && (!minutes || *ceiling < *minutes)) {
        minutes = ceiling;
        forecast.level_ppm = policy.ceiling_ppm;
        forecast.is_average = false;
    }
    if (minutes) forecast.minutes_to_level = static_cast<int>(std::floor(*minutes));
    return forecast;
}

}  // namespace holdpin
