// Checks of the figures that the sums lean on: engines, hoppers, doors, meters, levels, tailpipe
// tests.
#include <fmt/format.h>

#include <algorithm>

#include "content/proofreader.hpp"

namespace holdpin {
namespace {

// A machine of the site counts with the figures of its class, so those must be there.
bool is_in_use(const Site& site, const MachineClass& machine_class) {
    return std::any_of(
        site.machines.begin(), site.machines.end(),
        [&](const Machine& machine) { return machine.machine_class == machine_class.id; });
}

void proof_engines(Proof& proof) {
    if (proof.site().air.average_ppm <= 0) return;
    for (std::size_t i = 0; i < proof.pack().classes.size(); ++i) {
        const MachineClass& machine = proof.pack().classes[i];
        const Spot& at = proof.places().classes[i];
        // One that could not be read was told by the reader.
        if (!machine.has_engine || at.node().find("engine")) continue;
        if (!is_in_use(proof.site(), machine)) continue;
        proof.note(at, fmt::format("class \"{}\" has no engine figures to count with", machine.id),
                   "add [engine] with co_upper_lmin, or write average_ppm = 0 in the site's [air]");
    }
}

void proof_levels(Proof& proof, const Spot& at) {
    const AirPolicy& air = proof.site().air;
    if (at.node().find("air")) {
        const Spot spot = at.key("air");
        proof.footing(air.footing, spot);
        if (air.ceiling_ppm < air.average_ppm) {
            proof.note(spot.key("ceiling_ppm"), "the ceiling is below the average",
                       "write a ceiling_ppm that is not below average_ppm");
        }
    }
    if (at.node().find("cylinders")) {
        proof.footing(proof.site().cylinders.footing, at.key("cylinders"));
    }
}

// A reading is told by room, instrument and time, so no two meters bear one name.
void proof_meters(Proof& proof) {
    const Site& site = proof.site();
    for (std::size_t i = 0; i < site.meters.size(); ++i) {
        proof.known(site.meters[i].room, ids_of(site.rooms, &Room::id),
                    proof.places().meters[i].key("room"), "room");
    }
    proof.unique(ids_of(site.meters, &RoomMeter::instrument), proof.places().meters, "meter");
}

// The same door, written down in the room that it leads to as well; null: there is none.
const Door* twin_of(const Site& site, const Room& room, const Door& door) {
    for (const Room& other : site.rooms) {
        if (other.id != door.leads_to || other.id <= room.id) continue;
        for (const Door& twin : other.doors) {
            const bool same = twin.leads_to == room.id && twin.fan == door.fan &&
                              twin.name.by_language == door.name.by_language;
            if (same) return &twin;
        }
    }
    return nullptr;
}

// A door that stands in both of its rooms would count its air twice.
void proof_way(Proof& proof, const Room& room, const Door& door, const Spot& at) {
    const Site& site = proof.site();
    if (door.leads_to.empty()) return;
    if (!proof.known(door.leads_to, ids_of(site.rooms, &Room::id), at, "room")) return;
    if (door.leads_to == room.id) {
        proof.note(at, fmt::format("door \"{}\" leads back into its own room", door.id),
                   "name the room on its other side, or leave leads_to out for outdoors");
    }
    if (const Door* twin = twin_of(site, room, door)) {
        proof.note(at, fmt::format("doors \"{}\" and \"{}\" are the same one", door.id, twin->id),
                   "write a door between two rooms in one of them only");
    }
}

// A door is told by its id alone on entries, so no id stands in two rooms.
void proof_doors(Proof& proof) {
    std::vector<std::string> ids;
    std::vector<Spot> places;
    for (std::size_t i = 0; i < proof.site().rooms.size(); ++i) {
        const auto& doors = proof.site().rooms[i].doors;
        const auto below = places_of(proof.places().rooms[i], "door", doors.size());
        for (const Door& door : doors) ids.push_back(door.id);
        places.insert(places.end(), below.begin(), below.end());
        for (std::size_t door = 0; door < doors.size(); ++door) {
            proof_way(proof, proof.site().rooms[i], doors[door], below[door].key("leads_to"));
        }
    }
    proof.unique(ids, places, "door");
}

void proof_tailpipe(Proof& proof, const ExampleTailpipe& test, const Spot& at) {
    const Site& site = proof.site();
    if (!site.example) {
        proof.note(at, "a tailpipe test stands in a site that is no example",
                   "take it out: tests are entered at the kiosk");
    }
    if (!proof.known(test.machine, ids_of(site.machines, &Machine::plate), at.key("machine"),
                     "machine")) {
        return;
    }
    for (const Machine& machine : site.machines) {
        const auto* machine_class = proof.pack().machine_class(machine.machine_class);
        if (machine.plate != test.machine || !machine_class || machine_class->has_engine) continue;
        proof.note(at.key("machine"), fmt::format("\"{}\" has no engine to test", machine.plate),
                   "name a machine whose class has an engine");
    }
}

}  // namespace

void proof_figures(Proof& proof, const MachineClass& machine, const Spot& at) {
    if (machine.engine && !machine.has_engine) {
        proof.note(at.key("engine"), fmt::format("class \"{}\" has no engine", machine.id),
                   "take [engine] out or write has_engine = true");
    }
    if (machine.engine) proof.footing(machine.engine->footing, at.key("engine"));
    if (machine.hopper) proof.footing(machine.hopper->footing, at.key("hopper"));
}

void proof_site_air(Proof& proof) {
    if (!proof.places().site.empty()) proof_levels(proof, proof.places().site.front());
    proof_engines(proof);
    proof_doors(proof);
    proof_meters(proof);
    const auto& tests = proof.site().tailpipes;
    for (std::size_t i = 0; i < tests.size(); ++i) {
        proof_tailpipe(proof, tests[i], proof.places().tailpipes[i]);
    }
}

}  // namespace holdpin
