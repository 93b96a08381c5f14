// The doors and fans of a room as they are seen from inside it: its own, and those that another
// room has written down and that lead here. Each is set from both sides and is one on both.
#pragma once

#include <string>
#include <vector>

#include "flows/page.hpp"
#include "flows/session.hpp"

namespace holdpin {

enum class DoorIs {
    shut,     // or a fan that stands
    open,     // or a fan that runs
    unknown,  // nobody has looked within the site's time
};
struct SeenDoor {
    const Door* door = nullptr;
    std::string room;    // that has written it down; entries name it with the door
    std::string beyond;  // the room on the other side; empty: outdoors
    DoorIs is = DoorIs::unknown;
};
// Its own first. Empty for a room that is not there.
Result<std::vector<SeenDoor>> doors_seen_from(const Session& session, const std::string& room);

// To be touched when the door is found otherwise; its action is "door:<id>".
Row door_row(const Session& session, const SeenDoor& seen);

}  // namespace holdpin
