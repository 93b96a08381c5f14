#include "flows/air.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "flows/joined_air.hpp"

namespace holdpin {
namespace {

constexpr std::int64_t kMeansMs = 8 * 3'600'000LL;
constexpr std::int64_t kSilentMs = 180'000;  // of a meter that is read once a minute
constexpr double kLongestGapMinutes = 30;    // longer, and nobody knows what was between
constexpr double kEightHours = 480;
constexpr std::size_t kFewestToFit = 5;

Result<std::optional<AirForecast>> forecast(const Session& session, const JoinedAir& joined) {
    const AirPolicy& policy = session.content().site.air;
    const bool engines = joined.engines + joined.beyond > 0;
    if (policy.average_ppm <= 0 || !engines || !session.work_shift()) {
        return std::optional<AirForecast>();
    }
    return std::optional(TRY(forecast_air(joined.question)));
}

double minutes_between(std::int64_t from_ms, std::int64_t to_ms) {
    return static_cast<double>(to_ms - from_ms) / 60'000.0;
}

// In minutes from the first; of two meters at one time the higher counts.
std::vector<AirSample> in_minutes(const std::vector<AirReading>& readings) {
    std::vector<AirSample> line;
    for (const AirReading& reading : readings) {
        const double minute = minutes_between(readings.front().at_ms, reading.at_ms);
        if (!line.empty() && line.back().minute == minute) {
            line.back().ppm = std::max(line.back().ppm, reading.ppm);
        } else {
            line.push_back({minute, reading.ppm});
        }
    }
    return line;
}

std::vector<AirSample> since(const std::vector<AirSample>& line, double minute) {
    const auto from = std::find_if(line.begin(), line.end(),
                                   [&](const AirSample& one) { return one.minute >= minute; });
    return {from, line.end()};
}

// Over 8 hours: what was measured so far, and the forecast; what was not measured counts as none.
Result<double> mean_8h(const std::vector<AirSample>& line, double forecast_ppm,
                       double minutes_left) {
    const double still = std::min(minutes_left, kEightHours);
    const auto before = since(line, line.back().minute - (kEightHours - still));
    const RollingMean so_far = TRY(rolling_means(before, kEightHours)).back();
    return (so_far.mean_8h_ppm * so_far.covered_8h + forecast_ppm * still) / kEightHours;
}

Result<void> fit(const std::vector<AirSample>& line, const Room& room, double minutes_left,
                 double limit_ppm, MeasuredAir& measured) {
    const auto hour = since(line, line.back().minute - 60);
    if (hour.size() < kFewestToFit) {
        return Error{ErrorKind::refused, "the last hour has fewer than 5 readings", "", ""};
    }
    RoomToFit to_fit;
    to_fit.volume_m3 = room.volume_m3;
    const FittedRoom fitted = TRY(fit_room(hour, to_fit));
    ShiftForecast forecast = TRY(forecast_shift(hour, to_fit, minutes_left, limit_ppm));
    forecast.likely_8h_ppm = TRY(mean_8h(line, forecast.likely.mean_ppm, minutes_left));
    forecast.unfavourable_8h_ppm = TRY(mean_8h(line, forecast.unfavourable.mean_ppm, minutes_left));
    measured.fit = fitted;
    measured.forecast = forecast;
    return {};
}

}  // namespace

std::optional<MeasuredAir> measured_air(const std::vector<AirReading>& readings, const Room& room,
                                        double minutes_left, double limit_ppm) {
    if (readings.empty()) return std::nullopt;
    const std::vector<AirSample> line = in_minutes(readings);
    const auto means = rolling_means(line, kLongestGapMinutes);
    if (!means) return std::nullopt;
    MeasuredAir measured;
    measured.means = means.value().back();
    const auto fitted = fit(line, room, minutes_left, limit_ppm, measured);
    if (!fitted) measured.no_fit = fitted.error().sentence();
    return measured;
}

Result<std::optional<MeasuredAir>> measured_now(const Session& session, const Room& room) {
    const auto readings = TRY(air_readings(session.db(), room.id, session.now() - kMeansMs));
    const auto shift = session.work_shift();
    if (readings.empty() || session.now() - readings.back().at_ms > kReadingCountsMs) {
        return std::optional<MeasuredAir>();
    }
    const double left = shift ? minutes_between(readings.back().at_ms, shift->end_ms) : 0;
    return measured_air(readings, room, left, session.content().site.air.ceiling_ppm);
}

Result<std::string> silent_meters(const Session& session, const std::string& room) {
    std::vector<std::string> lines;
    for (const RoomMeter& meter : session.content().site.meters) {
        if (meter.room != room) continue;
        const auto last = TRY(last_air_reading(session.db(), room, meter.instrument));
        if (!last) {
            lines.push_back(session.say()("meter.never", {{"instrument", meter.instrument}}));
        } else if (session.now() - last->at_ms > kSilentMs) {
            lines.push_back(session.say()("meter.silent", {{"instrument", meter.instrument},
                                                           {"time", session.when(last->at_ms)}}));
        }
    }
    return joined(lines, " · ");
}

Result<RoomAirNow> air_now(const Session& session, const std::string& room_id,
                           const std::string& plate) {
    RoomAirNow air;
    const Room* room = session.content().room(room_id);
    if (room == nullptr) return air;
    const auto shift = session.work_shift();
    const double left = shift ? minutes_between(session.now(), shift->end_ms) : 0;
    const JoinedAir joined = TRY(joined_air(session, *room, plate, left));
    air.engines = joined.engines;
    air.beyond = joined.beyond;
    air.source_lmin = joined.question.rooms.front().source_lmin;
    air.airflow_m3h = joined.question.rooms.front().airflow_m3h;
    const auto readings =
        TRY(air_readings(session.db(), room_id, session.now() - kReadingCountsMs));
    if (!readings.empty()) air.last = readings.back();
    air.alarm = TRY(air_alarm_of(session.db(), room_id));
    air.forecast = TRY(forecast(session, joined));
    return air;
}

std::string alarm_line(const Session& session, const AirAlarm& alarm) {
    const Say say = session.say();
    const bool measured = alarm.cause == AlarmCause::reading;
    const std::string why = say("alarm.cause-" + std::string(name_of(alarm.cause)));
    return say("air.alarm", {{"ppm", measured ? ppm_text(alarm.ppm) : why},
                             {"time", session.clock(alarm.at_ms)}});
}

std::string ppm_text(double ppm) { return fmt::format("{:.4g}\u00a0ppm", ppm); }

}  // namespace holdpin
