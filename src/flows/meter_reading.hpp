// A reading of a carbon monoxide meter, typed at the kiosk: the number, which meter, the signature.
// It becomes an exposure record, zero or not, and what it means for the room follows in the same
// transaction: at the ceiling the alarm is raised; in an alarm the statement says how it was read,
// and a low one ends the alarm where rules/air_alarm lets it.
#pragma once

#include <functional>
#include <string>

#include "flows/session.hpp"
#include "rules/air_alarm.hpp"

namespace holdpin {

struct ReadingDone {
    double ppm = 0;
    bool in_alarm = false;  // one stood before it
    LiftRefusal refusal = LiftRefusal::not_below;  // meaningful where one stood
};
// What comes after it; done already is all that had to be entered.
using ThenReading = std::function<Result<Next>(Session&, const ReadingDone&)>;

// Somebody must be signed on.
Result<Next> ask_reading(const Session& session, const std::string& room, ThenReading then);

}  // namespace holdpin
