#include "content_types/content.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace holdpin {
namespace {

template <typename Items, typename Key, typename Member>
auto find_by(const Items& items, const Key& key, Member member) -> decltype(items.data()) {
    const auto at = std::find_if(items.begin(), items.end(),
                                 [&](const auto& item) { return item.*member == key; });
    return at == items.end() ? nullptr : &*at;
}

template <typename Enum>
struct Name {
    Enum value;
    std::string_view name;
};

template <typename Enum, std::size_t N>
std::string_view name_in(const std::array<Name<Enum>, N>& table, Enum value) {
    for (const auto& row : table) {
        if (row.value == value) return row.name;
    }
    return "";
}

template <typename Enum, std::size_t N>
std::optional<Enum> value_in(const std::array<Name<Enum>, N>& table, std::string_view name) {
    for (const auto& row : table) {
        if (row.name == name) return row.value;
    }
    return std::nullopt;
}

constexpr std::array kFootingKinds{
    Name<FootingKind>{FootingKind::law, "law"},
    Name<FootingKind>{FootingKind::guidance, "guidance"},
    Name<FootingKind>{FootingKind::standard, "standard"},
    Name<FootingKind>{FootingKind::maker, "maker"},
    Name<FootingKind>{FootingKind::site, "site"},
};
constexpr std::array kOutcomes{
    Name<Outcome>{Outcome::fine, "fine"},
    Name<Outcome>{Outcome::note, "note"},
    Name<Outcome>{Outcome::limit, "limit"},
    Name<Outcome>{Outcome::stop, "stop"},
};
constexpr std::array kHazards{
    Name<Hazard>{Hazard::none, "none"},
    Name<Hazard>{Hazard::lp_leak, "lp-leak"},
    Name<Hazard>{Hazard::lp_fuel, "lp-fuel"},
    Name<Hazard>{Hazard::brake, "brake"},
    Name<Hazard>{Hazard::steering, "steering"},
    Name<Hazard>{Hazard::hopper_support, "hopper-support"},
    Name<Hazard>{Hazard::air, "air"},
    Name<Hazard>{Hazard::guard, "guard"},
    Name<Hazard>{Hazard::electrical, "electrical"},
};
constexpr std::array kLugs{
    Name<Lug>{Lug::person, "person"},     Name<Lug>{Lug::round, "round"},
    Name<Lug>{Lug::findings, "findings"}, Name<Lug>{Lug::room_air, "room-air"},
    Name<Lug>{Lug::service, "service"},   Name<Lug>{Lug::locks, "locks"},
    Name<Lug>{Lug::site, "site"},
};
constexpr std::array kDuties{
    Name<Duty>{Duty::operating, "operator"},     Name<Duty>{Duty::training, "trainer"},
    Name<Duty>{Duty::evaluating, "evaluator"},   Name<Duty>{Duty::supervising, "supervisor"},
    Name<Duty>{Duty::repairing, "mechanic"},     Name<Duty>{Duty::authoring, "author"},
    Name<Duty>{Duty::auditing, "auditor"},
};
constexpr std::array kRights{
    Name<Right>{Right::operate, "operate"},
    Name<Right>{Right::instruct, "instruct"},
    Name<Right>{Right::evaluate, "evaluate"},
    Name<Right>{Right::authorise, "authorise"},
    Name<Right>{Right::decide_limit, "decide-limit"},
    Name<Right>{Right::return_to_service, "return-to-service"},
    Name<Right>{Right::override_hold, "override-hold"},
    Name<Right>{Right::repair, "repair"},
    Name<Right>{Right::place_lockout, "place-lockout"},
    Name<Right>{Right::manage_people, "manage-people"},
    Name<Right>{Right::read_records, "read-records"},
};
constexpr std::array kSignalWords{
    Name<SignalWord>{SignalWord::danger, "danger"},
    Name<SignalWord>{SignalWord::warning, "warning"},
    Name<SignalWord>{SignalWord::caution, "caution"},
    Name<SignalWord>{SignalWord::notice, "notice"},
};

}  // namespace

const std::string& Text::in(const std::string& language) const {
    static const std::string kNothing;
    auto at = by_language.find(language);
    if (at == by_language.end()) at = by_language.find("en");
    return at == by_language.end() ? kNothing : at->second;
}

SignalWord signal_word(Severity severity, Probability probability) {
    switch (severity) {
        case Severity::death:
            return probability == Probability::will ? SignalWord::danger : SignalWord::warning;
        case Severity::injury: return SignalWord::caution;
        case Severity::property: break;
    }
    return SignalWord::notice;
}

bool Point::can_stop() const {
    const bool number_stops = number && number->outside == Outcome::stop;
    return number_stops || std::any_of(readings.begin(), readings.end(), [](const Reading& r) {
               return r.outcome == Outcome::stop;
           });
}

std::size_t Round::point_count() const {
    std::size_t count = 0;
    for (const auto& station : stations) count += station.points.size();
    return count;
}

std::pair<const Station*, const Point*> Round::at(std::size_t index) const {
    for (const auto& station : stations) {
        if (index < station.points.size()) return {&station, &station.points[index]};
        index -= station.points.size();
    }
    return {nullptr, nullptr};
}

const Point* Round::find(std::string_view point_id) const {
    for (const auto& station : stations) {
        if (const Point* point = find_by(station.points, point_id, &Point::id)) return point;
    }
    return nullptr;
}

const Footing* Pack::footing(std::string_view id) const {
    return find_by(footings, id, &Footing::id);
}
const HoldRule* Pack::hold(std::string_view code) const {
    return find_by(holds, code, &HoldRule::code);
}
const MachineClass* Pack::machine_class(std::string_view id) const {
    return find_by(classes, id, &MachineClass::id);
}
const Guide* Pack::guide(std::string_view id) const { return find_by(guides, id, &Guide::id); }
const Quiz* Pack::quiz(std::string_view id) const { return find_by(quizzes, id, &Quiz::id); }
const Round* Pack::round(std::string_view id) const { return find_by(rounds, id, &Round::id); }
const Work* Pack::work(std::string_view id) const {
    return find_by(works, id, &Work::id);
}

const WorkStep* Work::step(std::string_view step_id) const {
    return find_by(steps, step_id, &WorkStep::id);
}

const WorkAnswer* WorkStep::answer(std::string_view answer_id) const {
    return find_by(answers, answer_id, &WorkAnswer::id);
}

const Sheet* Pack::sheet(std::string_view id) const { return find_by(sheets, id, &Sheet::id); }

const RetentionClass* Pack::retention_of(std::string_view kind) const {
    const RetentionClass* rest = nullptr;
    for (const RetentionClass& one : retention) {
        for (const std::string& taken : one.kinds) {
            if (taken == kind) return &one;
            if (taken == kEveryKind) rest = &one;
        }
    }
    return rest;
}

bool Pack::grants(const std::vector<Duty>& held, Right right) const {
    return std::any_of(duties.begin(), duties.end(), [&](const DutyRule& rule) {
        return std::find(held.begin(), held.end(), rule.duty) != held.end() &&
               std::find(rule.rights.begin(), rule.rights.end(), right) != rule.rights.end();
    });
}

std::string Pack::digest(std::string_view kind, std::string_view id) const {
    const auto at = digests.find(std::string(kind) + "/" + std::string(id));
    return at == digests.end() ? "" : at->second;
}

const Machine* Content::machine(std::string_view plate) const {
    return find_by(site.machines, plate, &Machine::plate);
}
const Person* Content::person(std::string_view id) const {
    return find_by(site.people, id, &Person::id);
}
const Room* Content::room(std::string_view id) const { return find_by(site.rooms, id, &Room::id); }
const Shift* Content::shift(std::string_view id) const {
    return find_by(site.shifts, id, &Shift::id);
}

std::string_view name_of(FootingKind value) { return name_in(kFootingKinds, value); }
std::string_view name_of(Outcome value) { return name_in(kOutcomes, value); }
std::string_view name_of(Hazard value) { return name_in(kHazards, value); }
std::string_view name_of(Lug value) { return name_in(kLugs, value); }
std::string_view name_of(Duty value) { return name_in(kDuties, value); }
std::string_view name_of(Right value) { return name_in(kRights, value); }
std::string_view name_of(SignalWord value) { return name_in(kSignalWords, value); }
std::string_view name_of(RoundKind value) {
    return value == RoundKind::before ? "before" : "after";
}
std::string_view name_of(TopicKind value) {
    return value == TopicKind::truck ? "truck" : "workplace";
}

std::optional<FootingKind> footing_kind_named(std::string_view name) {
    return value_in(kFootingKinds, name);
}
std::optional<Outcome> outcome_named(std::string_view name) { return value_in(kOutcomes, name); }
std::optional<Hazard> hazard_named(std::string_view name) { return value_in(kHazards, name); }
std::optional<Lug> lug_named(std::string_view name) { return value_in(kLugs, name); }
std::optional<Duty> duty_named(std::string_view name) { return value_in(kDuties, name); }
std::optional<Right> right_named(std::string_view name) { return value_in(kRights, name); }

}  // namespace holdpin
