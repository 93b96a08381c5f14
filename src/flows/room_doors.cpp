#include "flows/room_doors.hpp"

#include <algorithm>

namespace holdpin {
namespace {

DoorIs state_of(const Session& session, const std::vector<DoorState>& states, const Door& door) {
    const AirPolicy& policy = session.content().site.air;
    for (const DoorState& state : states) {
        if (state.id != door.id || !still_counts(state, policy, session.now())) continue;
        return state.open ? DoorIs::open : DoorIs::shut;
    }
    // Outdoor air that nobody has seen coming in is not counted on.
    return door.leads_to.empty() ? DoorIs::shut : DoorIs::unknown;
}

}  // namespace

Result<std::vector<SeenDoor>> doors_seen_from(const Session& session, const std::string& room) {
    std::vector<SeenDoor> seen;
    for (const bool own : {true, false}) {
        for (const Room& one : session.content().site.rooms) {
            if ((one.id == room) != own) continue;
            const auto states = TRY(doors_of(session.db(), one.id));
            for (const Door& door : one.doors) {
                if (!own && door.leads_to != room) continue;
                seen.push_back({&door, one.id, own ? door.leads_to : one.id,
                                state_of(session, states, door)});
            }
        }
    }
    return seen;
}

Row door_row(const Session& session, const SeenDoor& seen) {
    const Say say = session.say();
    const bool open = seen.is == DoorIs::open;
    const bool fan = seen.door->fan;
    Row row;
    row.id = "door:" + seen.door->id;
    row.label = say(seen.door->name);
    row.second = fan ? say(open ? "joined-air.touch-stands" : "joined-air.touch-runs")
                     : say(open ? "air.touch-shut" : "air.touch-open");
    if (!seen.beyond.empty()) {
        row.second = say(fan ? "joined-air.fan-to" : "joined-air.door-to",
                         {{"room", session.room_name(seen.beyond)}}) + " · " + row.second;
    }
    row.word = fan ? say(open ? "joined-air.runs" : "joined-air.stands")
                   : say(open ? "air.door-open" : "air.door-shut");
    if (seen.is == DoorIs::unknown) {
        row.word = say("joined-air.unknown");
        row.mark = LugState::due;
    }
    row.chosen = open;
    return row;
}

}  // namespace holdpin
