// A room and every room whose air can come to it now, through doors that are open or that nobody
// has looked at, and through fans: what the forecast of rules/air is asked with.
#pragma once

#include <string>

#include "flows/session.hpp"
#include "rules/air.hpp"

namespace holdpin {

constexpr std::int64_t kReadingCountsMs = 3'600'000;  // an older one says little about the air now

struct JoinedAir {
    AirQuestion question;  // the room asked about first; minutes are to the end of the shift
    int engines = 0;       // released into it
    int beyond = 0;        // released into the rooms that are joined to it
};
// With the engine of `plate` counted in the room asked about, where it is not out yet. Next door,
// where nobody has measured within the hour, the air counts as no better than here.
Result<JoinedAir> joined_air(const Session& session, const Room& room, const std::string& plate,
                             double minutes);

}  // namespace holdpin
