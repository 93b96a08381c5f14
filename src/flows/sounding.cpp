#include "flows/sounding.hpp"

#include <algorithm>

#include "flows/air_alarm_work.hpp"
#include "records/alarms.hpp"
#include "records/lockout.hpp"

namespace holdpin {
namespace {

// People under a raised part have less time than people in a room that fills.
constexpr std::int64_t kZoneAgainMs = 2'000;
constexpr std::int64_t kAirAgainMs = 5'000;

bool zone_is_left(const Session& session) {
    const auto all = lockouts(session.db());
    const std::int64_t now = session.now();
    return all.ok() && std::any_of(all.value().begin(), all.value().end(), [&](const Lockout& one) {
               return one.step == LockoutStep::leaving || is_look_missed(one, now);
           });
}

bool room_is_left(const Session& session) {
    const auto alarms = standing_alarms(session.db());
    if (!alarms) return false;
    return std::any_of(alarms.value().begin(), alarms.value().end(), [&](const AirAlarm& alarm) {
        const auto work = alarm_work(session.db(), alarm);
        return work.ok() && work.value().state == AlarmState::leaving;
    });
}

void sound(Page& page, Sound sound, std::int64_t at_ms) {
    page.sound = sound;
    page.next_change_ms =
        page.next_change_ms == 0 ? at_ms : std::min(page.next_change_ms, at_ms);
}

}  // namespace

void add_sound(const Session& session, Page& page) {
    if (zone_is_left(session)) {
        sound(page, Sound::leave_zone, session.now() + kZoneAgainMs);
        page.silent = session.say()("sound.silent-zone");
    } else if (room_is_left(session)) {
        sound(page, Sound::air, session.now() + kAirAgainMs);
        page.silent = session.say()("sound.silent-air");
    }
}

}  // namespace holdpin
