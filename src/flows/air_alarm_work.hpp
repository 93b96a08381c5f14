// What is known about a room in an air alarm: how far its people have come, who was seen outside,
// and since when the room airs. Kept as a draft of the room that begins anew with each alarm.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "flows/session.hpp"
#include "records/alarms.hpp"
#include "rules/air_alarm.hpp"

namespace holdpin {

enum class AlarmState { leaving, counting, missing, airing, entering, lifted };
enum class Head { unasked, seen, missing };

// Whoever else was inside: visitors, other crews, people without a badge.
inline constexpr std::string_view kOthers = "others";

struct AlarmWork {
    std::int64_t alarm = 0;  // its entry
    AlarmState state = AlarmState::leaving;
    std::map<std::string, Head> heads;  // by person, and `kOthers`
    double from_ppm = kUnmeasuredPpm;   // of the air at `since_ms`
    std::int64_t since_ms = 0;          // when airing began to count
    bool engine_runs = false;           // one was left running inside

    Head head(const std::string& who) const;
};

// The draft of this alarm, or the beginning.
Result<AlarmWork> alarm_work(Database& db, const AirAlarm& alarm);
Result<void> keep_alarm_work(Session& session, const std::string& room, const AlarmWork& work);
Result<void> drop_alarm_work(Session& session, const std::string& room);

// Persons on the list and `kOthers`, those who are still to be seen outside. `signer` stands at the
// kiosk and is none of them; nobody has to answer for others before they were asked about.
std::vector<std::string> not_seen(const AirAlarm& alarm, const AlarmWork& work,
                                  const std::string& signer);

// What airing begins from: the latest reading since the alarm, else what raised it, else the level
// of a room that nobody measured.
Result<double> airing_from(const Session& session, const AirAlarm& alarm);
// How far the airing is; from a later reading, where there is one.
Result<AiringNow> airing_of(const Session& session, const std::string& room, const AlarmWork& work);

}  // namespace holdpin
