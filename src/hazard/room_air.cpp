#include "hazard/room_air.hpp"

#include <fmt/format.h>

#include "hazard/valid_range.hpp"

namespace holdpin {

namespace {

constexpr double kMostPpm = 100'000;
constexpr ValidRange kVolume{"volume_m3", "m³", 1, 10'000'000};
constexpr ValidRange kAirflow{"airflow_m3h", "m³/h", 0, 100'000'000};
constexpr ValidRange kSource{"source_lmin", "L/min", 0, 10'000};
constexpr ValidRange kOutdoor{"outdoor_ppm", "ppm", 0, kMostPpm};
constexpr ValidRange kStart{"start_ppm", "ppm", 0, kMostPpm};
constexpr ValidRange kMixing{"mixing", "", 1, 10};
constexpr ValidRange kMinutes{"minutes", "min", 0, 10'080};
constexpr ValidRange kLimit{"limit_ppm", "ppm", 0.001, kMostPpm};

Result<void> checked(const RoomAir& room) {
    TRY(refuse_outside(kVolume, room.volume_m3));
    TRY(refuse_outside(kAirflow, room.airflow_m3h));
    TRY(refuse_outside(kSource, room.source_lmin));
    TRY(refuse_outside(kOutdoor, room.outdoor_ppm));
    TRY(refuse_outside(kStart, room.start_ppm));
    return refuse_outside(kMixing, room.mixing);
}

Result<void> dilute_enough(double end_ppm) {
    if (end_ppm <= kMostPpm) return {};
    return Error{ErrorKind::invalid,
                 fmt::format("the room would hold {:.0f} ppm, and this sum holds up to {:.0f} ppm",
                             end_ppm, kMostPpm),
                 "", "check volume, source and minutes"};
}

}  // namespace

Result<AirCourse> air_course(const RoomAir& room) {
    TRY(checked(room));
    AirCourse course;
    course.start_ppm = room.start_ppm;
    course.settling_per_min = room.airflow_m3h / room.mixing / room.volume_m3 / 60;
    course.rise_ppm_min = 1e6 * (room.source_lmin / 1000) / room.volume_m3 +
                          course.settling_per_min * (room.outdoor_ppm - room.start_ppm);
    return course;
}

Result<RoomAirForecast> room_air(const RoomAir& room, double minutes,
                                 std::optional<double> limit_ppm) {
    TRY(refuse_outside(kMinutes, minutes));
    if (limit_ppm) TRY(refuse_outside(kLimit, *limit_ppm));
    const AirCourse course = TRY(air_course(room));
    RoomAirForecast forecast;
    forecast.end_ppm = course.at(minutes);
    TRY(dilute_enough(forecast.end_ppm));
    forecast.mean_ppm = course.mean(minutes);
    forecast.steady_ppm = course.steady();
    if (forecast.steady_ppm > 1e6) forecast.steady_ppm.reset();
    if (limit_ppm) {
        const bool is_there = room.start_ppm >= *limit_ppm;
        forecast.minutes_to_limit = is_there ? 0 : course.minutes_to(*limit_ppm);
    }
    return forecast;
}

}  // namespace holdpin
