#include "flows/estimate_sums.hpp"

#include <algorithm>

#include "flows/plates.hpp"
#include "hazard/prop_load.hpp"
#include "rules/air.hpp"

namespace holdpin {
namespace {

Result<const Room*> room_of(const Session& session, const std::string& id) {
    const Room* room = session.content().room(id);
    if (room == nullptr) return Error{ErrorKind::absent, "there is no such room", id, ""};
    return room;
}

}  // namespace

std::string_view name_of(Subject subject) {
    switch (subject) {
        case Subject::room_air: return "room-air";
        case Subject::blood: return "blood";
        case Subject::airing: return "airing";
        case Subject::cylinder: return "cylinder";
        case Subject::props: return "props";
        case Subject::run: return "run";
    }
    return "";
}

bool asks_for_room(Subject subject) {
    return subject != Subject::cylinder && subject != Subject::props;
}

Result<std::vector<EstimateDial>> estimate_dials(const Session& session, Subject subject,
                                                 const std::string& room_id) {
    switch (subject) {
        case Subject::room_air: return room_air_dials(session, *TRY(room_of(session, room_id)));
        case Subject::blood: return blood_dials();
        case Subject::airing: return airing_dials(session, *TRY(room_of(session, room_id)));
        case Subject::cylinder: return cylinder_dials();
        case Subject::props: return prop_dials(session);
        case Subject::run: return run_dials(session, *TRY(room_of(session, room_id)));
    }
    return std::vector<EstimateDial>();
}

Result<EstimateBody> estimate(const EstimateAsk& ask, Subject subject) {
    switch (subject) {
        case Subject::room_air: return estimate_room_air(ask);
        case Subject::blood: return estimate_blood(ask);
        case Subject::airing: return estimate_airing(ask);
        case Subject::cylinder: return estimate_cylinder(ask);
        case Subject::props: return estimate_props(ask);
        case Subject::run: return estimate_run(ask);
    }
    return EstimateBody();
}

// The greatest of the machines that belong here; of all machines where none does.
double engine_source_lmin(const Session& session, const Room& room) {
    double here = 0;
    double anywhere = 0;
    for (const Machine& machine : session.content().site.machines) {
        const MachineClass* machine_class = class_of(session, machine.plate);
        if (machine_class == nullptr || !machine_class->engine) continue;
        const auto test = tailpipe_of(session.db(), machine.plate);
        const double source =
            source_lmin(*machine_class, test.ok() ? test.value() : std::nullopt,
                        session.content().site.air, session.today());
        anywhere = std::max(anywhere, source);
        if (machine.room == room.id) here = std::max(here, source);
    }
    return here > 0 ? here : anywhere;
}

double airflow_doors_open(const Room& room) {
    double airflow = room.airflow_m3h;
    for (const Door& door : room.doors) {
        if (door.leads_to.empty()) airflow += door.airflow_m3h;
    }
    return airflow;
}

std::string prop_load_note(const Session& session, const HopperFigures& hopper) {
    RaisedHopper raised{hopper.hopper_kg, hopper.arm_m,        hopper.prop_m,
                        hopper.prop_angle_deg, hopper.pin_mm, 2,
                        hopper.shear_planes, hopper.yield_mpa};
    const auto two = prop_load(raised);
    raised.pins = 1;
    const auto one = prop_load(raised);
    if (!two.ok() || !one.ok()) return "";
    const Units units(session.content().site.units == "us");
    return session.say()(
        "estimates.prop-note",
        {{"two", units.text(Quantity::force, two.value().force_per_pin_n)},
         {"one", units.text(Quantity::force, one.value().force_per_pin_n)}});
}

}  // namespace holdpin
