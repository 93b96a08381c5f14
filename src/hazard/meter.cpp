#include "hazard/meter.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hazard/valid_range.hpp"

namespace holdpin {

namespace {

constexpr double kQuarterHour = 15;
constexpr double kEightHours = 480;
constexpr ValidRange kMinute{"minute", "min", 0, 1e9};
constexpr ValidRange kPpm{"ppm", "ppm", 0, 100'000};
constexpr ValidRange kGap{"longest_gap_min", "min", 0.1, 1440};
constexpr ValidRange kLeft{"minutes_left", "min", 0, 1440};

Result<void> check(std::span<const AirSample> readings) {
    for (std::size_t i = 0; i < readings.size(); ++i) {
        TRY(refuse_outside(kMinute, readings[i].minute));
        TRY(refuse_outside(kPpm, readings[i].ppm));
        if (i > 0 && readings[i].minute <= readings[i - 1].minute) {
            return Error{
                ErrorKind::invalid,
                fmt::format("the reading at minute {:g} comes after the one at minute {:g}",
                            readings[i].minute, readings[i - 1].minute),
                "readings", "give the readings in the order of their times"};
        }
    }
    return {};
}

struct Covered {
    double minutes = 0;
    double dose = 0;  // ppm·min
};

// What lies after `from` of the straight line between two readings.
Covered part_after(const AirSample& left, const AirSample& right, double from) {
    const double begin = std::max(left.minute, from);
    if (begin >= right.minute) return {};
    const double slope = (right.ppm - left.ppm) / (right.minute - left.minute);
    const double first = left.ppm + slope * (begin - left.minute);
    const double minutes = right.minute - begin;
    return {minutes, minutes * (first + right.ppm) / 2};
}

// Of the window that ends at the reading `last`.
Covered covered(std::span<const AirSample> readings, std::size_t last, double window, double gap) {
    Covered all;
    const double from = readings[last].minute - window;
    for (std::size_t i = last; i > 0 && readings[i].minute > from; --i) {
        if (readings[i].minute - readings[i - 1].minute > gap) continue;
        const Covered part = part_after(readings[i - 1], readings[i], from);
        all.minutes += part.minutes;
        all.dose += part.dose;
    }
    return all;
}

double mean_of(const Covered& part, double otherwise) {
    return part.minutes > 0 ? part.dose / part.minutes : otherwise;
}

RoomAir room_of(const FittedRoom& fit, const RoomToFit& room, bool unfavourable) {
    RoomAir air;
    air.volume_m3 = room.volume_m3;
    air.outdoor_ppm = room.outdoor_ppm;
    air.start_ppm = fit.end_ppm;
    air.source_lmin = unfavourable ? fit.source_lmin.high : fit.source_lmin.value;
    air.airflow_m3h = unfavourable ? fit.airflow_m3h.low : fit.airflow_m3h.value;
    return air;
}

// The worst 8 h of a shift that may be longer: the forecast goes on from the last reading.
double mean_8h(std::span<const AirSample> readings, double forecast_ppm, double minutes_left) {
    const double still = std::min(minutes_left, kEightHours);
    const Covered so_far = covered(readings, readings.size() - 1, kEightHours - still, kEightHours);
    return (so_far.dose + forecast_ppm * still) / kEightHours;
}

}  // namespace

Result<std::vector<RollingMean>> rolling_means(std::span<const AirSample> readings,
                                               double longest_gap_min) {
    TRY(refuse_outside(kGap, longest_gap_min));
    TRY(check(readings));
    std::vector<RollingMean> means;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const Covered quarter = covered(readings, i, kQuarterHour, longest_gap_min);
        const Covered eight = covered(readings, i, kEightHours, longest_gap_min);
        means.push_back({readings[i].minute, mean_of(quarter, readings[i].ppm), quarter.minutes,
                         mean_of(eight, readings[i].ppm), eight.minutes});
    }
    return means;
}

Result<ShiftForecast> forecast_shift(std::span<const AirSample> readings, const RoomToFit& room,
                                     double minutes_left, double limit_ppm) {
    TRY(refuse_outside(kLeft, minutes_left));
    TRY(check(readings));
    const FittedRoom fit = TRY(fit_room(readings, room));
    ShiftForecast forecast;
    forecast.likely = TRY(room_air(room_of(fit, room, false), minutes_left, limit_ppm));
    forecast.unfavourable = TRY(room_air(room_of(fit, room, true), minutes_left, limit_ppm));
    forecast.likely_8h_ppm = mean_8h(readings, forecast.likely.mean_ppm, minutes_left);
    forecast.unfavourable_8h_ppm = mean_8h(readings, forecast.unfavourable.mean_ppm, minutes_left);
    return forecast;
}

}  // namespace holdpin
