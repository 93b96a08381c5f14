#include "flows/joined_air.hpp"

#include <algorithm>

#include "flows/plates.hpp"
#include "flows/room_doors.hpp"

namespace holdpin {
namespace {

// Engines out in a room, as litres of carbon monoxide a minute, and how many there are.
struct Engines {
    int count = 0;
    double source_lmin = 0;
};

Result<Engines> engines_of(const Session& session, const std::vector<std::string>& plates) {
    Engines engines;
    for (const std::string& plate : plates) {
        const MachineClass* machine_class = class_of(session, plate);
        if (machine_class == nullptr || !machine_class->engine) continue;
        ++engines.count;
        engines.source_lmin += source_lmin(*machine_class, TRY(tailpipe_of(session.db(), plate)),
                                           session.content().site.air, session.today());
    }
    return engines;
}

// The machine in question runs in the room asked about and nowhere else.
Result<std::vector<std::string>> plates_in(const Session& session, const std::string& room,
                                           const std::string& plate, bool asked) {
    auto plates = TRY(machines_out_in(session.db(), room));
    if (plate.empty()) return plates;
    plates.erase(std::remove(plates.begin(), plates.end(), plate), plates.end());
    if (asked) plates.push_back(plate);
    return plates;
}

// Appends the room; `otherwise_ppm` where nobody has measured.
Result<int> add_room(const Session& session, const Room& room, const std::string& plate,
                     double otherwise_ppm, AirQuestion& question) {
    const bool asked = question.rooms.empty();
    const Engines engines =
        TRY(engines_of(session, TRY(plates_in(session, room.id, plate, asked))));
    RoomNow now;
    now.room = &room;
    now.source_lmin = engines.source_lmin;
    now.airflow_m3h = airflow_now(room, TRY(doors_of(session.db(), room.id)), question.policy,
                                  session.now());
    const auto readings =
        TRY(air_readings(session.db(), room.id, session.now() - kReadingCountsMs));
    now.start_ppm = readings.empty() ? otherwise_ppm : readings.back().ppm;
    question.rooms.push_back(now);
    return engines.count;
}

std::size_t place_of(const AirQuestion& question, const std::string& room) {
    const auto at = std::find_if(question.rooms.begin(), question.rooms.end(),
                                 [&](const RoomNow& now) { return now.room->id == room; });
    return static_cast<std::size_t>(at - question.rooms.begin());
}

}  // namespace

Result<JoinedAir> joined_air(const Session& session, const Room& room, const std::string& plate,
                             double minutes) {
    JoinedAir air;
    AirQuestion& question = air.question;
    question.minutes = minutes;
    question.policy = session.content().site.air;
    air.engines = TRY(add_room(session, room, plate, 0, question));
    std::vector<const Door*> counted;
    for (std::size_t here = 0; here < question.rooms.size(); ++here) {
        for (const SeenDoor& seen : TRY(doors_seen_from(session, question.rooms[here].room->id))) {
            const Room* beyond = session.content().room(seen.beyond);
            const bool met = std::find(counted.begin(), counted.end(), seen.door) != counted.end();
            if (beyond == nullptr || seen.is == DoorIs::shut || met) continue;
            counted.push_back(seen.door);
            std::size_t there = place_of(question, beyond->id);
            if (there == question.rooms.size()) {
                air.beyond += TRY(add_room(session, *beyond, plate,
                                           question.rooms.front().start_ppm, question));
            }
            const bool out = seen.room == question.rooms[here].room->id;
            question.ways.push_back({out ? here : there, out ? there : here,
                                     seen.door->airflow_m3h, seen.door->fan,
                                     seen.is != DoorIs::unknown});
        }
    }
    return air;
}

}  // namespace holdpin
