#include "all_clear.hpp"

namespace holdpin::sample {
namespace {

constexpr Date kEvaluated{2025, 2, 1};
constexpr const char* kTopics[] = {"controls", "fuel", "brakes", "ramps", "air", "pedestrians"};

Pack make_pack() {
    Pack made;
    made.duties = {
        {Duty::operating, {}, {Right::operate}},
        {Duty::training, {}, {Right::instruct}},
        {Duty::evaluating, {}, {Right::evaluate}},
        {Duty::supervising,
         {},
         {Right::authorise, Right::decide_limit, Right::return_to_service, Right::override_hold}},
        {Duty::repairing, {}, {Right::repair, Right::place_lockout}},
    };
    return made;
}

MachineClass make_sweeper() {
    MachineClass made;
    made.id = "sweeper";
    made.has_engine = true;
    for (const char* id : kTopics) {
        Topic topic;
        topic.id = id;
        made.topics.push_back(topic);
    }
    return made;
}

Person person_with(std::vector<Duty> duties) {
    Person made;
    made.id = "ana";
    made.duties = std::move(duties);
    return made;
}

SignedRound round_of_ana() {
    SignedRound round;
    round.entry = 90;
    round.person = "ana";
    round.digest = "digest-now";
    round.signed_ms = kNow - 10 * kMinute;
    round.shift_end_ms = kShiftEnd;
    return round;
}

MachineState machine_in_order() {
    MachineState machine;
    machine.plate = "M-04";
    machine.hours_tenths = 12'000;
    machine.fuel_percent = 80;
    machine.service_every_tenths = 2'500;
    machine.service_done_tenths = 10'000;
    machine.inspection_due = Date{2026, 12, 31};
    machine.round = round_of_ana();
    return machine;
}

}  // namespace

const Pack& pack() {
    static const Pack made = make_pack();
    return made;
}

const MachineClass& sweeper() {
    static const MachineClass made = make_sweeper();
    return made;
}

const Person& ana() {
    static const Person made = person_with({Duty::operating});
    return made;
}

const Person& ana_without_duty() {
    static const Person made = person_with({Duty::auditing});
    return made;
}

TopicRecord complete(Date evaluated) {
    TopicRecord record;
    record.instructed = add_days(evaluated, -2);
    record.practised = add_days(evaluated, -1);
    record.evaluated = evaluated;
    return record;
}

Snapshot all_clear() {
    Snapshot s;
    s.person = &ana();
    for (const char* id : kTopics) s.topics[id] = complete(kEvaluated);
    s.authorisation = Authorisation{7, {}, {}};
    s.machine_class = &sweeper();
    s.machine = machine_in_order();
    s.room = "hall";
    s.round_digest = "digest-now";
    s.pack = &pack();
    s.shift = ShiftWindow{"day", kNow, kShiftEnd, {2026, 11, 25}};
    s.now_ms = kNow;
    s.today = {2026, 11, 25};
    return s;
}

OpenFinding finding(std::int64_t entry, Outcome outcome, Hazard hazard) {
    OpenFinding made;
    made.entry = entry;
    made.point = "point-" + std::to_string(entry);
    made.outcome = outcome;
    made.hazard = hazard;
    made.at_ms = kNow - kHour;
    made.by = "ben";
    return made;
}

HoldSet refused(const Decision& decision) {
    const auto* holds = std::get_if<std::vector<Hold>>(&decision);
    return holds == nullptr ? HoldSet() : set_of(*holds);
}

std::string words(const HoldSet& set) {
    std::string text;
    for (std::size_t i = 0; i < kHoldCount; ++i) {
        if (!set[i]) continue;
        if (!text.empty()) text += ' ';
        text += name_of(static_cast<HoldCode>(i));
    }
    return text;
}

}  // namespace holdpin::sample
