// Checks of a site against itself and the pack.
#include <fmt/format.h>

#include <algorithm>

#include "content/proofreader.hpp"
#include "content/text_rules.hpp"

namespace holdpin {
namespace {

bool is_digits(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

void proof_head(Proof& proof, const Spot& at) {
    const Site& site = proof.site();
    if (!site.zone.empty()) {
        const auto zone = Zone::load(site.zone);
        if (!zone.ok()) proof.note(at.key("zone"), zone.error().what, zone.error().mend);
    }
    const bool is_number = site.emergency_number.size() >= 2 && is_digits(site.emergency_number);
    if (!site.emergency_number.empty() && !is_number) {
        proof.note(at.key("emergency_number"), "the emergency number has other than digits",
                   "write it as it is dialled, for example \"911\"");
    }
    const Spot on_call = at.key("supervisor_on_call");
    if (proof.known(site.supervisor_on_call, ids_of(site.people, &Person::id), on_call, "person")) {
        for (const auto& person : site.people) {
            const auto& duties = person.duties;
            if (person.id != site.supervisor_on_call ||
                std::find(duties.begin(), duties.end(), Duty::supervising) != duties.end()) {
                continue;
            }
            proof.note(on_call, fmt::format("\"{}\" is no supervisor", person.id),
                       "name a person with that duty");
        }
    }
    const std::pair<const char*, bool> lists[] = {{"shift", site.shifts.empty()},
                                                  {"room", site.rooms.empty()},
                                                  {"machine", site.machines.empty()},
                                                  {"person", site.people.empty()}};
    for (const auto& [name, is_empty] : lists) {
        if (is_empty)
            proof.note(at, fmt::format("the site has no {}", name),
                       fmt::format("add [[{}]]", name));
    }
}

void proof_shifts(Proof& proof) {
    const auto& shifts = proof.site().shifts;
    const auto& places = proof.places().shifts;
    for (std::size_t i = 0; i < shifts.size(); ++i) {
        // Faults of the form were told by the reader and left both ends at 0.
        const bool is_read = places[i].node().find("start") && places[i].node().find("end");
        if (is_read && shifts[i].start_min % 1440 == shifts[i].end_min % 1440) {
            proof.note(places[i], fmt::format("shift \"{}\" has no length", shifts[i].id),
                       "write an end that differs from the start");
        }
        if (shifts[i].start_min == 1440) {
            proof.note(places[i].key("start"), "a shift cannot start at 24:00", "write 00:00");
        }
    }
    proof.unique(ids_of(shifts, &Shift::id), places, "shift");
}

void proof_machines(Proof& proof) {
    const Site& site = proof.site();
    const auto& places = proof.places().machines;
    for (std::size_t i = 0; i < site.machines.size(); ++i) {
        const Machine& machine = site.machines[i];
        proof.known(machine.machine_class, ids_of(proof.pack().classes, &MachineClass::id),
                    places[i].key("class"), "class");
        proof.known(machine.room, ids_of(site.rooms, &Room::id), places[i].key("room"), "room");
        if (machine.service_done_tenths > machine.hours_tenths) {
            proof.note(places[i].key("service_done"),
                       fmt::format("service of \"{}\" was done after its hours", machine.plate),
                       "write hours that are not below service_done");
        }
    }
    proof.unique(ids_of(site.machines, &Machine::plate), places, "plate");
}

void proof_drains(Proof& proof) {
    const Site& site = proof.site();
    const auto& places = proof.places().drains;
    for (std::size_t i = 0; i < site.drains.size(); ++i) {
        const Drain& drain = site.drains[i];
        proof.known(drain.room, ids_of(site.rooms, &Room::id), places[i].key("room"), "room");
        proof.known(drain.confirmed_by, ids_of(site.people, &Person::id),
                    places[i].key("confirmed_by"), "person");
        if (places[i].node().find("confirmed_by") && !places[i].node().find("confirmed_on")) {
            proof.note(places[i], fmt::format("drain \"{}\" has no date of confirming", drain.id),
                       "write confirmed_on = 2026-05-04");
        }
    }
    proof.unique(ids_of(site.drains, &Drain::id), places, "drain");
    proof.unique(ids_of(site.exchange_places, &ExchangePlace::id), proof.places().exchange_places,
                 "exchange place");
}

void proof_pin(Proof& proof, const Person& person, const Spot& at) {
    const std::string& pin = person.example_pin;
    if (pin.empty()) return;
    const Spot spot = at.key("example_pin");
    const int digits = proof.site().policy.pin_digits;
    if (!proof.site().example) {
        proof.note(spot, "a PIN stands in a site that is no example",
                   "take it out: people choose their PIN at the kiosk");
    }
    if (!is_digits(pin) || pin.size() != static_cast<std::size_t>(digits)) {
        proof.note(spot, fmt::format("the PIN of \"{}\" has not {} digits", person.id, digits),
                   "write as many digits as policy.pin_digits says");
    } else if (is_weak_pin(pin)) {
        proof.note(spot, fmt::format("the PIN of \"{}\" is easily guessed", person.id),
                   "choose one that is no run, repeat or pattern");
    }
}

void proof_people(Proof& proof) {
    const auto& people = proof.site().people;
    const auto& places = proof.places().people;
    for (std::size_t i = 0; i < people.size(); ++i) {
        proof_pin(proof, people[i], places[i]);
        if (people[i].duties.empty() && places[i].node().find("duties")) {
            proof.note(places[i].key("duties"),
                       fmt::format("person \"{}\" has no duty", people[i].id), "name one");
        }
    }
    proof.unique(ids_of(people, &Person::id), places, "person");
    proof.unique(ids_of(people, &Person::badge), places, "badge");
}

// Every id of a list is known; faults point at the list.
void proof_list(Proof& proof, const std::vector<std::string>& ids,
                const std::vector<std::string>& known, const Spot& at, std::string_view kind) {
    for (const auto& id : ids) proof.known(id, known, at, kind);
}

void proof_signer(Proof& proof, const ExampleRecord& record, const Spot& at) {
    const auto& people = proof.site().people;
    if (!proof.known(record.signed_by, ids_of(people, &Person::id), at, "person")) return;
    if (record.signed_by == record.person) {
        proof.note(at, fmt::format("\"{}\" signs for themself", record.person),
                   "name another person");
    }
    const auto may_sign = [&](const Person& person) {
        return person.id == record.signed_by &&
               (proof.pack().grants(person.duties, Right::instruct) ||
                proof.pack().grants(person.duties, Right::evaluate) ||
                proof.pack().grants(person.duties, Right::authorise));
    };
    if (std::none_of(people.begin(), people.end(), may_sign)) {
        proof.note(at, fmt::format("\"{}\" may not sign training", record.signed_by),
                   "name a trainer, an evaluator or a supervisor");
    }
}

void proof_records(Proof& proof) {
    const Site& site = proof.site();
    for (std::size_t i = 0; i < site.records.size(); ++i) {
        const ExampleRecord& record = site.records[i];
        const Spot& at = proof.places().records[i];
        if (!site.example) {
            proof.note(at, "a training record stands in a site that is no example",
                       "take it out: training is signed at the kiosk");
        }
        proof.known(record.person, ids_of(site.people, &Person::id), at.key("person"), "person");
        proof.known(record.machine_class, ids_of(proof.pack().classes, &MachineClass::id),
                    at.key("class"), "class");
        if (const auto* machine = proof.pack().machine_class(record.machine_class)) {
            proof_list(proof, record.topics, ids_of(machine->topics, &Topic::id), at.key("topics"),
                       "topic");
        }
        proof_list(proof, record.rooms, ids_of(site.rooms, &Room::id), at.key("rooms"), "room");
        proof_list(proof, record.shifts, ids_of(site.shifts, &Shift::id), at.key("shifts"),
                   "shift");
        proof_signer(proof, record, at.key("signed_by"));
    }
}

void proof_statements(Proof& proof) {
    const Site& site = proof.site();
    for (std::size_t i = 0; i < site.statements.size(); ++i) {
        const Spot& at = proof.places().statements[i];
        if (!site.example) {
            proof.note(at, "an accepted statement stands in a site that is no example",
                       "take it out: the signing statement is signed at the kiosk");
        }
        proof.known(site.statements[i].person, ids_of(site.people, &Person::id), at.key("person"),
                    "person");
    }
}

}  // namespace

void proof_site(Proof& proof) {
    if (!proof.places().site.empty()) proof_head(proof, proof.places().site.front());
    proof_shifts(proof);
    proof.unique(ids_of(proof.site().rooms, &Room::id), proof.places().rooms, "room");
    proof_machines(proof);
    proof_site_air(proof);
    proof_drains(proof);
    proof_people(proof);
    proof_records(proof);
    proof_statements(proof);
}

}  // namespace holdpin
