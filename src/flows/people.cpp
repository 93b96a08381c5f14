#include "flows/people.hpp"

#include <algorithm>

#include "flows/about_me.hpp"
#include "flows/badge_work.hpp"
#include "flows/desk.hpp"
#include "flows/leaving.hpp"
#include "flows/pieces.hpp"
#include "flows/sign.hpp"
#include "flows/training_work.hpp"
#include "flows/two_people.hpp"
#include "records/privacy.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kPerson = "person:";
constexpr std::string_view kClass = "class:";
constexpr const char* kRefusals = "refusals";
constexpr int kRefusalDays = 7;
constexpr int kRefusalsMost = 100;
constexpr int kManyInARow = 5;  // half of what locks
constexpr std::int64_t kDayMs = 86'400'000;

Result<Person> person_of(const Session& session, const std::string& id) {
    const auto found = TRY(person_with(session.db(), id));
    if (found) return *found;
    return Error{ErrorKind::absent, "this person is not enrolled", id, ""};
}

std::string duty_names(const Session& session, const Person& person) {
    std::vector<std::string> names;
    for (const Duty duty : person.duties) names.push_back(session.say().duty(duty));
    return joined(names, ", ");
}

// Classes that machines of the site have.
Result<std::vector<const MachineClass*>> classes_here(const Session& session) {
    std::vector<const MachineClass*> found;
    for (const MachineRow& row : TRY(machines(session.db()))) {
        const MachineClass* one = session.pack().machine_class(row.machine_class);
        if (one != nullptr && std::find(found.begin(), found.end(), one) == found.end()) {
            found.push_back(one);
        }
    }
    return found;
}

struct Standing {
    std::string word;
    LugState mark = LugState::held;
};

// One word for a person and a class: current, authorised or what is missing.
Result<Standing> standing_of(const Session& session, const std::string& person,
                             const MachineClass& machine_class) {
    const TopicRecords records = TRY(topics_of(session.db(), person));
    const auto open = topics_to_train(machine_class, records, session.today());
    const Say say = session.say();
    if (!open.empty()) {
        return Standing{say("people.to-train", {{"count", std::to_string(open.size())}}),
                        LugState::due};
    }
    if (!TRY(authorisation_of(session.db(), person, machine_class.id))) {
        return Standing{say("people.not-authorised"), LugState::due};
    }
    return Standing{say("people.current"), LugState::open};
}

std::string gap_word(const Session& session, TopicGap gap) {
    constexpr const char* kWords[] = {"gap.none",          "gap.not-instructed",
                                      "gap.not-practised", "gap.not-evaluated",
                                      "gap.lapsed",        "gap.refresher"};
    return session.say()(kWords[static_cast<std::size_t>(gap)]);
}

std::string dates_of(const Session& session, const Topic& topic, const TopicRecords& records) {
    const auto at = records.find(topic.id);
    if (at == records.end()) return "";
    const auto part = [&](const char* key, const std::optional<Date>& date) {
        return date ? session.say()(key, {{"date", session.date(*date)}}) : std::string();
    };
    std::vector<std::string> parts;
    for (std::string one : {part("topic.instructed", at->second.instructed),
                            part("topic.practised", at->second.practised),
                            part("topic.evaluated", at->second.evaluated)}) {
        if (!one.empty()) parts.push_back(std::move(one));
    }
    return joined(parts, " · ");
}

// A first PIN needs one supervisor; a new one needs a second person, so that nobody alone can sign
// as another: also as somebody who had left and is here again.
Result<Next> issue_pin(Session& session, const Person& person) {
    const bool first = !TRY(session.mutable_world().pins.find(person.id)).has_value() &&
                       !TRY(ever_had_pin(session.db(), person.id));
    const Say say = session.say();
    const std::string meaning = say("pin.issue-meaning", {{"name", person.name}});
    if (first) {
        return Next::push(std::make_unique<SignFlow>(
            *session.person(), say("pin.issue"), meaning, [person](Session& s) {
                return show_new_pin(s, person, {s.person_id()});
            }));
    }
    const TwoPeople ask{say("pin.issue"), meaning, person.id, {}, say("pin.second-other")};
    return Next::push(two_people(session, ask, [person](Session& s, const Person& second) {
        return show_new_pin(s, person, {s.person_id(), second.id});
    }));
}

std::int64_t lately(const Session& session) { return session.now() - kRefusalDays * kDayMs; }

}  // namespace

Result<Next> show_new_pin(Session& session, const Person& person, std::vector<std::string> by) {
    const std::string pin = TRY(draw_pin(session, person, std::move(by)));
    const Say say = session.say();
    return Next::done(std::make_unique<MessageFlow>(
        LugState::unasked, say("pin.new", {{"name", person.name}}),
        std::vector<std::string>{pin, say("pin.handed-line")}));
}

Result<Page> RefusalsFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("desk/refusals");
    page.middle = say("refusals.title");
    ListBody body;
    body.desk = true;
    body.heading = say("refusals.heading", {{"days", std::to_string(kRefusalDays)}});
    body.remark = say("refusals.remark");
    const auto newest = TRY(refusals_since(session.db(), lately(session), kRefusalsMost));
    for (const SignInRefusal& one : newest) {
        Row row;
        row.label = one.person.empty() ? say("refusals.unknown-badge") : session.name(one.person);
        row.second = session.when(one.at_ms);
        if (!one.person.empty() && one.failures > 1) {
            row.word = say("refusals.in-a-row", {{"count", std::to_string(one.failures)}});
            row.mark = one.failures >= kManyInARow ? LugState::held : LugState::due;
        }
        body.rows.push_back(std::move(row));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> RefusalsFlow::act(Session&, const Action& action) {
    return action.id == "back" ? Next::back() : Next::stay();
}

Result<Page> PeopleFlow::page(const Session& session) const {
    Page page = session.blank("desk/people");
    page.middle = session.say()("desk.people");
    ListBody body;
    body.desk = true;
    body.heading = session.say()("people.heading");
    const std::int64_t refused = TRY(refusal_count_since(session.db(), lately(session)));
    if (refused > 0 && session.may(Right::manage_people)) {
        Row row;
        row.id = kRefusals;
        row.label = session.say()("refusals.title");
        row.second = session.say()("refusals.count", {{"count", std::to_string(refused)},
                                                      {"days", std::to_string(kRefusalDays)}});
        row.mark = LugState::due;
        body.rows.push_back(std::move(row));
    }
    for (const Person& person : TRY(people(session.db()))) {
        Row row;
        row.id = std::string(kPerson) + person.id;
        row.label = session.name(person.id);
        row.second = duty_names(session, person);
        if (TRY(gone(session.db(), person.id))) {
            row.second = session.say()("leaving.has-left");
        } else if (person.badge.empty()) {
            row.second = session.say()("badge.none");
        }
        row.word = person.badge;
        const bool own = person.id == session.person_id();
        if (!own && !session.may(Right::read_records) && !session.may(Right::instruct) &&
            !session.may(Right::evaluate)) {
            row.enabled = false;
            row.why_not = session.say()("refused.own-only");
        }
        body.rows.push_back(std::move(row));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> PeopleFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id == kRefusals && session.may(Right::manage_people)) {
        return Next::push(std::make_unique<RefusalsFlow>());
    }
    if (!action.id.starts_with(kPerson)) return Next::stay();
    const std::string id = action.id.substr(kPerson.size());
    const bool others = session.may(Right::read_records) || session.may(Right::instruct) ||
                        session.may(Right::evaluate);
    if (id != session.person_id() && !others) return Next::stay();
    return Next::push(std::make_unique<PersonFlow>(id));
}

Result<Page> PersonFlow::page(const Session& session) const {
    const Say say = session.say();
    const Person person = TRY(person_of(session, person_));
    Page page = session.blank("desk/person/" + person_);
    page.middle = session.name(person_);
    ListBody body;
    body.desk = true;
    body.heading = session.name(person_);
    body.remark = duty_names(session, person);
    for (const MachineClass* one : TRY(classes_here(session))) {
        const Standing standing = TRY(standing_of(session, person_, *one));
        Row row;
        row.id = std::string(kClass) + one->id;
        row.label = say(one->name);
        row.word = standing.word;
        row.mark = standing.mark;
        body.rows.push_back(std::move(row));
    }
    const bool may_issue = session.may(Right::manage_people) && !person.badge.empty();
    body.rows.push_back(work_row("pin", say("pin.issue"), say("pin.issue-second"),
                                 may_issue ? "" : say("refused.no-right")));
    for (Row& row : TRY(badge_rows(session, person))) body.rows.push_back(std::move(row));
    for (Row& row : TRY(leaving_rows(session, person))) body.rows.push_back(std::move(row));
    for (Row& row : TRY(disagreement_rows(session, person_))) body.rows.push_back(std::move(row));
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> PersonFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id.starts_with(kClass)) {
        return Next::push(
            std::make_unique<TrainingFlow>(person_, action.id.substr(kClass.size())));
    }
    const Person person = TRY(person_of(session, person_));
    if (action.id == "pin" && session.may(Right::manage_people) && !person.badge.empty()) {
        return issue_pin(session, person);
    }
    if (action.id.starts_with("badge-")) return begin_badge_work(session, person, action.id);
    return begin_leaving(session, person, action.id);
}

Result<Page> TrainingFlow::page(const Session& session) const {
    const Say say = session.say();
    const MachineClass* machine_class = session.pack().machine_class(class_);
    if (machine_class == nullptr) return Error{ErrorKind::absent, "unknown class", class_, ""};
    const TopicRecords records = TRY(topics_of(session.db(), person_));
    const Standing standing = TRY(standing_of(session, person_, *machine_class));
    Page page = session.blank("desk/training/" + person_ + "/" + class_);
    page.middle = session.name(person_);
    ListBody body;
    body.desk = true;
    body.heading = say(machine_class->name);
    body.remark = standing.word;
    for (TrainingOffer& offer : TRY(training_offers(session, person_, *machine_class))) {
        body.rows.push_back(std::move(offer.row));
    }
    for (const Topic& topic : machine_class->topics) {
        const TopicGap gap = topic_gap(topic, records, session.today());
        Row row;
        row.label = say(topic.name);
        row.second = dates_of(session, topic, records);
        row.word = gap_word(session, gap);
        row.mark = gap == TopicGap::none ? LugState::open : LugState::due;
        body.rows.push_back(std::move(row));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> TrainingFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    const MachineClass* machine_class = session.pack().machine_class(class_);
    if (machine_class == nullptr) return Next::back();
    const Person person = TRY(person_of(session, person_));
    for (const TrainingOffer& offer : TRY(training_offers(session, person_, *machine_class))) {
        if (offer.row.id == action.id && offer.row.enabled) {
            return begin_training_work(session, offer.kind, person, *machine_class);
        }
    }
    return Next::stay();
}

}  // namespace holdpin
