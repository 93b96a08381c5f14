// Who is out of the zone of a lockout: people counted and held against the list, and whoever has
// gone home taken off it by two others.
#pragma once

#include <string>

#include "flows/session.hpp"
#include "records/lockout.hpp"

namespace holdpin {

// By `first`, who signs, and by a second person who is asked for.
Result<Next> take_off_for_absent(Session& session, const Lockout& state, const Person& first,
                                 const std::string& owner);
// Tools, guards and people, each ticked, the people counted, all of it signed; then `deed`: the end
// of the work, or a test run.
Result<Next> clear_zone(Session& session, const std::string& plate, LockoutDeed deed);
// People counted outside and held against the list, then signed for and `event` entered.
Result<Next> count_people(Session& session, const std::string& plate, const LockoutEvent& event);

}  // namespace holdpin
