#include "rules/air_alarm.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "hazard/purge.hpp"
#include "hazard/room_air.hpp"

namespace holdpin {
namespace {

constexpr double kMsPerMinute = 60'000;
constexpr double kLongestMinutes = 1440;  // a longer time is no plan
constexpr double kLeastAirflow = 0.001;   // m³/h, the least that the sums take

constexpr std::array<std::string_view, 3> kCauses{"reading", "symptoms", "button"};

// A door opened later than `at_ms` was not open then.
double airflow_at(const AiringQuestion& question, std::int64_t at_ms) {
    std::vector<DoorState> doors = question.doors;
    std::erase_if(doors, [&](const DoorState& door) { return door.read_ms > at_ms; });
    return airflow_now(*question.room, doors, question.policy, at_ms);
}

// The moments between which the airflow stays the same.
std::vector<std::int64_t> steps_of(const AiringQuestion& question) {
    const std::int64_t from_ms = std::min(question.since_ms, question.now_ms);
    std::vector<std::int64_t> steps{from_ms, question.now_ms};
    for (const DoorState& door : question.doors) {
        const std::int64_t shut_ms = door.read_ms + question.policy.doors_minutes * 60'000LL;
        for (const std::int64_t at_ms : {door.read_ms, shut_ms}) {
            if (at_ms > from_ms && at_ms < question.now_ms) steps.push_back(at_ms);
        }
    }
    std::sort(steps.begin(), steps.end());
    return steps;
}

Result<double> ppm_now(const AiringQuestion& question) {
    const auto steps = steps_of(question);
    RoomAir room;
    room.volume_m3 = question.room->volume_m3;
    room.mixing = question.room->mixing;
    room.start_ppm = question.from_ppm;
    for (std::size_t i = 1; i < steps.size(); ++i) {
        room.airflow_m3h = airflow_at(question, steps[i - 1] + (steps[i] - steps[i - 1]) / 2);
        const double minutes = static_cast<double>(steps[i] - steps[i - 1]) / kMsPerMinute;
        room.start_ppm = TRY(room_air(room, std::min(minutes, 7 * kLongestMinutes))).end_ppm;
    }
    return room.start_ppm;
}

}  // namespace

std::string_view name_of(AlarmCause cause) { return kCauses[static_cast<std::size_t>(cause)]; }

AlarmCause alarm_cause(std::string_view name) {
    for (const AlarmCause cause : {AlarmCause::symptoms, AlarmCause::button}) {
        if (name_of(cause) == name) return cause;
    }
    return AlarmCause::reading;
}

int ill_within(const std::vector<IllReport>& reports, int minutes, std::int64_t now_ms) {
    int ill = 0;
    for (const IllReport& report : reports) {
        // A report "from the future" stands where the clock was set back: it counts all the same.
        const bool counts = std::abs(now_ms - report.at_ms) <= minutes * 60'000LL;
        if (counts) ill += report.count;
    }
    return ill;
}

bool is_alarm(int ill) { return ill >= 2; }

bool is_time_to_ask(const MidShift& question) {
    if (!question.shift || question.asked || question.alarm) return false;
    if (!question.engine_out || !question.shut) return false;
    const std::int64_t half_ms = (question.shift->end_ms - question.shift->start_ms) / 2;
    return question.now_ms >= question.shift->start_ms + half_ms &&
           question.now_ms < question.shift->end_ms;
}

double reentry_level_ppm(const AirPolicy& policy) {
    return policy.average_ppm > 0 ? policy.average_ppm : AirPolicy{}.average_ppm;
}

LiftRefusal judge_lift(const LiftQuestion& question) {
    if (question.ppm >= question.level_ppm) return LiftRefusal::not_below;
    if (!question.counted) return LiftRefusal::not_counted;
    if (!question.entitled) return LiftRefusal::not_entitled;
    return question.current ? LiftRefusal::none : LiftRefusal::not_current;
}

Result<AiringNow> airing_now(const AiringQuestion& question) {
    AiringNow now;
    now.ppm = TRY(ppm_now(question));
    const double level = reentry_level_ppm(question.policy);
    if (now.ppm <= level) {
        now.minutes_left = 0;
        return now;
    }
    const double airflow = airflow_at(question, question.now_ms);
    if (airflow < kLeastAirflow) return now;
    const Airing airing{TRY(air_changes(question.room->volume_m3, airflow)), question.room->mixing};
    const double minutes = TRY(purge_minutes(airing, now.ppm, level));
    if (minutes <= kLongestMinutes) now.minutes_left = static_cast<int>(std::ceil(minutes));
    return now;
}

}  // namespace holdpin
