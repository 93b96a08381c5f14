// What each step of an air alarm shows; see flows/air_alarm.hpp. No effects.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "flows/air_alarm_work.hpp"
#include "flows/room_doors.hpp"
#include "flows/session.hpp"

namespace holdpin {

// The sheet that is open to all while an alarm stands.
inline constexpr std::string_view kSheetOfAlarm = "carbon-monoxide";

// With the alarm that stands, and with none: then it was ended.
Result<Page> alarm_page(const Session& session, const AirAlarm& alarm, const AlarmWork& work);
Page ended_page(const Session& session, const std::string& room);

// Who is to be counted: persons on the list, then `kOthers`.
std::vector<std::string> heads_of(const AirAlarm& alarm);
// The doors that air the room: those to outdoors.
Result<std::vector<SeenDoor>> airing_doors(const Session& session, const std::string& room);

}  // namespace holdpin
