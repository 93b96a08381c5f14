#include "rules/air.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "hazard/rooms.hpp"

namespace holdpin {
namespace {

constexpr double kAverageMinutes = 480;  // the time over which the average counts
constexpr double kStepMinutes = 1;       // levels are looked for minute by minute
constexpr double kShortestMinutes = 0.01;
constexpr std::size_t kMostTried = 4;    // unknown ways, in every combination

// Air that mixes badly carries off less: the worse of the two rooms counts.
void join(const AirQuestion& question, const WayNow& way, JoinedRooms& site) {
    const double mixing =
        std::max(question.rooms[way.from].room->mixing, question.rooms[way.to].room->mixing);
    const double airflow = way.airflow_m3h / mixing;
    const int from = static_cast<int>(way.from);
    const int to = static_cast<int>(way.to);
    if (!way.fan) return site.exchange(from, to, airflow);
    site.airflows.push_back({kOutdoors, from, airflow});
    site.airflows.push_back({from, to, airflow});
    site.airflows.push_back({to, kOutdoors, airflow});
}

// The rooms as they stand, without the ways between them.
JoinedRooms rooms_of(const AirQuestion& question, double minutes) {
    JoinedRooms site;
    for (std::size_t i = 0; i < question.rooms.size(); ++i) {
        const RoomNow& now = question.rooms[i];
        const int room = static_cast<int>(i);
        site.rooms.push_back({now.room->volume_m3, now.start_ppm});
        site.exchange(room, kOutdoors, now.airflow_m3h / now.room->mixing);
        site.sources.push_back({room, now.source_lmin, 0, minutes});
    }
    return site;
}

// The last whole minute before the dose of the asked room reached what is wanted.
std::optional<double> minutes_below_dose(const RoomsForecast& course, double wanted_ppm_min) {
    for (std::size_t point = 1; point < course.minutes.size(); ++point) {
        if (course.dose_ppm_min[point][0] >= wanted_ppm_min) return course.minutes[point - 1];
    }
    return std::nullopt;
}

Result<AirForecast> forecast_for(const AirQuestion& question, const JoinedRooms& site,
                                 double minutes) {
    const AirPolicy& policy = question.policy;
    const RoomsForecast course = TRY(forecast_rooms(site, minutes, kStepMinutes));
    AirForecast forecast;
    forecast.end_ppm = course.ppm.back()[0];
    forecast.level_ppm = policy.average_ppm;
    auto below = minutes_below_dose(course, policy.average_ppm * kAverageMinutes);
    const auto ceiling = minutes_below(course, 0, policy.ceiling_ppm);
    if (ceiling && (!below || *ceiling <= *below)) {
        below = ceiling;
        forecast.level_ppm = policy.ceiling_ppm;
        forecast.is_average = false;
    }
    if (below) forecast.minutes_to_level = static_cast<int>(std::floor(*below));
    return forecast;
}

bool is_worse(const AirForecast& one, const AirForecast& other) {
    constexpr int kNever = std::numeric_limits<int>::max();
    const int minutes = one.minutes_to_level.value_or(kNever);
    const int others = other.minutes_to_level.value_or(kNever);
    return minutes != others ? minutes < others : one.end_ppm > other.end_ppm;
}

}  // namespace

double source_lmin(const MachineClass& machine_class, const std::optional<TailpipeTest>& test,
                   const AirPolicy& policy, Date today) {
    if (!machine_class.engine) return 0;
    const bool in_date = test && today <= add_months(test->on, policy.tailpipe_months);
    return in_date ? test->co_lmin : machine_class.engine->co_upper_lmin;
}

bool still_counts(const DoorState& door, const AirPolicy& policy, std::int64_t now_ms) {
    return now_ms - door.read_ms <= policy.doors_minutes * 60'000LL;
}

bool counts_as_open(const DoorState& door, const AirPolicy& policy, std::int64_t now_ms) {
    return door.open && still_counts(door, policy, now_ms);
}

double airflow_now(const Room& room, const std::vector<DoorState>& doors, const AirPolicy& policy,
                   std::int64_t now_ms) {
    double airflow = room.airflow_m3h;
    for (const Door& door : room.doors) {
        const bool open = std::any_of(doors.begin(), doors.end(), [&](const DoorState& state) {
            return state.id == door.id && counts_as_open(state, policy, now_ms);
        });
        if (open && door.leads_to.empty()) airflow += door.airflow_m3h;
    }
    return airflow;
}

Result<AirForecast> forecast_air(const AirQuestion& question) {
    const double minutes = std::max(question.minutes, kShortestMinutes);
    std::vector<const WayNow*> unknown;
    JoinedRooms certain = rooms_of(question, minutes);
    for (const WayNow& way : question.ways) {
        const bool tried = !way.known && unknown.size() < kMostTried;
        if (tried) {
            unknown.push_back(&way);
        } else {
            join(question, way, certain);
        }
    }
    std::optional<AirForecast> worst;
    for (unsigned open = 0; open < (1U << unknown.size()); ++open) {
        JoinedRooms site = certain;
        for (std::size_t i = 0; i < unknown.size(); ++i) {
            if (((open >> i) & 1U) != 0) join(question, *unknown[i], site);
        }
        const AirForecast one = TRY(forecast_for(question, site, minutes));
        if (!worst || is_worse(one, *worst)) worst = one;
    }
    return *worst;
}

}  // namespace holdpin
