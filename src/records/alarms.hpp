// Questions to the present state about people in bad air: alarms that stand, reports of people who
// feel ill, and where that was asked already. None of it holds a name of somebody ill.
#pragma once

#include <string_view>
#include <vector>

#include "records/records.hpp"

namespace holdpin {

// Every alarm that stands, oldest first.
Result<std::vector<AirAlarm>> standing_alarms(Database& db);

// People reported ill in a room since `from_ms`, oldest first.
Result<std::vector<IllReport>> ill_reports(Database& db, std::string_view room,
                                           std::int64_t from_ms);
// Whether the shift that began at `shift_ms` was asked about this room.
Result<bool> symptoms_asked(Database& db, std::string_view room, std::int64_t shift_ms);

}  // namespace holdpin
