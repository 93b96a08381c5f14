#include "binder/currency.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "base_json/values.hpp"
#include "binder/table_cells.hpp"
#include "rules/qualification.hpp"

namespace holdpin {
namespace {

std::vector<std::string> topics_in(const Entry& entry) {
    std::vector<std::string> topics;
    const auto at = entry.data.find("topics");
    if (at == entry.data.end() || !at->is_array()) return topics;
    for (const auto& item : *at) {
        if (item.is_string()) topics.push_back(item.get<std::string>());
    }
    return topics;
}

bool is_passed(const Entry& entry) {
    const auto at = entry.data.find("passed");
    return at != entry.data.end() && at->is_boolean() && at->get<bool>();
}

std::string local_day(const Entry& entry) {
    return cells::local_text_of(entry.at_ms, entry.offset_min).substr(0, 10);
}

std::optional<Date> date_in(const std::string& text) {
    const auto date = parse_date(text);
    return date ? std::optional(date.value()) : std::nullopt;
}

// "2033-06" counts to the last day of the month.
std::optional<Date> month_end(const std::string& text) {
    const auto first = date_in(text + "-01");
    return first ? std::optional(add_days(add_months(*first, 1), -1)) : std::nullopt;
}

std::string_view word_of(TopicGap gap) {
    switch (gap) {
        case TopicGap::none: return "current";
        case TopicGap::not_instructed: return "not-instructed";
        case TopicGap::not_practised: return "not-practised";
        case TopicGap::not_evaluated: return "not-evaluated";
        case TopicGap::lapsed: return "lapsed";
        case TopicGap::refresher_open: return "refresher-open";
    }
    return "";
}

}  // namespace

struct Currency::PersonClass {
    std::string person;
    const MachineClass* machine_class;
    bool authorised;
};

void Currency::learn(const Entry& entry) {
    if (local_day(entry) > iso_date(as_of_)) return;
    if (entry.kind == "authorised") {
        authorised_[text_of(entry.data, "person")][text_of(entry.data, "class")] = entry.n;
    } else if (entry.kind == "authorisation-withdrawn") {
        authorised_[text_of(entry.data, "person")].erase(text_of(entry.data, "class"));
    } else {
        learn_stage(entry);
        learn_machine(entry);
    }
}

// Goes as fold_people.cpp does, and notes the entry.
void Currency::learn_stage(const Entry& entry) {
    std::string TopicState::*date = nullptr;
    if (entry.kind == "instructed") date = &TopicState::instructed;
    if (entry.kind == "quiz-finished" && is_passed(entry)) date = &TopicState::instructed;
    if (entry.kind == "practised") date = &TopicState::practised;
    if (entry.kind == "evaluated" && is_passed(entry)) date = &TopicState::evaluated;
    const bool opens = entry.kind == "refresher-opened" ||
                       (entry.kind == "evaluated" && !is_passed(entry));
    if (date == nullptr && !opens) return;
    const std::string given = text_of(entry.data, "on");
    auto& of_person = topics_[text_of(entry.data, "person")];
    for (const auto& topic : topics_in(entry)) {
        // A refresher of a topic that was never reached changes nothing.
        if (opens && !of_person.contains(topic)) continue;
        TopicState& state = of_person[topic];
        if (date != nullptr) state.*date = given.empty() ? local_day(entry) : given;
        if (opens) state.refresher = true;
        if (entry.kind == "evaluated" && !opens) state.refresher = false;
        state.latest = {entry.n, entry.at_ms, entry.offset_min};
    }
}

void Currency::learn_machine(const Entry& entry) {
    const std::string machine = text_of(entry.data, "machine");
    if (entry.kind == "machine-enrolled" && !inspections_.contains(machine)) {
        inspections_[machine] = {text_of(entry.data, "inspection_due"), entry.n};
    } else if (entry.kind == "inspection-done") {
        inspections_[machine] = {text_of(entry.data, "next_due"), entry.n};
    } else if (entry.kind == "person-enrolled") {
        listings_[text_of(entry.data, "person")] = {text_of(entry.data, "listed_until"), entry.n};
    } else if (entry.kind == "cylinder-received") {
        cylinders_[text_of(entry.data, "serial")] = {text_of(entry.data, "due"), entry.n};
    } else if (entry.kind == "cylinder-given-back") {
        cylinders_.erase(text_of(entry.data, "serial"));
    }
}

bool Currency::wants(const std::string& person, const MachineClass& machine_class) const {
    if (!scope_.person.empty() && person != scope_.person) return false;
    return scope_.machine.empty() || lookup_.class_of(scope_.machine) == &machine_class;
}

// A person and a class belong together where there is a permission or any record in its topics.
std::vector<Currency::PersonClass> Currency::pairs() const {
    std::set<std::string> people;
    for (const auto& [person, topics] : topics_) people.insert(person);
    for (const auto& [person, classes] : authorised_) people.insert(person);
    std::vector<PersonClass> pairs;
    for (const auto& person : people) {
        for (const auto& machine_class : lookup_.content().pack.classes) {
            if (!wants(person, machine_class)) continue;
            const auto permitted = authorised_.find(person);
            const bool may =
                permitted != authorised_.end() && permitted->second.contains(machine_class.id);
            const auto known = topics_.find(person);
            const bool learned =
                known != topics_.end() &&
                std::any_of(machine_class.topics.begin(), machine_class.topics.end(),
                            [&](const Topic& topic) { return known->second.contains(topic.id); });
            if (may || learned) pairs.push_back({person, &machine_class, may});
        }
    }
    return pairs;
}

Cells Currency::cells_of(const PersonClass& pair, const Topic& topic) const {
    TopicState state;
    if (const auto person = topics_.find(pair.person); person != topics_.end()) {
        if (const auto at = person->second.find(topic.id); at != person->second.end()) {
            state = at->second;
        }
    }
    const auto evaluated = date_in(state.evaluated);
    const TopicRecords record{{topic.id, {date_in(state.instructed), date_in(state.practised),
                                          evaluated, state.refresher}}};
    const RowFooting footing{topic.footing, {pair.machine_class->id}};
    const bool none = state.latest.n == 0;
    return {none ? "" : std::to_string(state.latest.n),
            none ? "" : utc_text(state.latest.at_ms),
            none ? "" : cells::local_text_of(state.latest.at_ms, state.latest.offset_min),
            iso_date(as_of_),
            pair.person,
            lookup_.name_of(pair.person),
            pair.machine_class->id,
            pair.authorised ? "true" : "false",
            topic.id,
            state.instructed,
            state.practised,
            state.evaluated,
            evaluated ? iso_date(valid_until(topic, *evaluated)) : "",
            std::string(word_of(topic_gap(topic, record, as_of_))),
            lookup_.footing_kind(footing),
            lookup_.footing_source(footing)};
}

Result<void> Currency::write_rows(Tables& tables) {
    for (const PersonClass& pair : pairs()) {
        for (const Topic& topic : pair.machine_class->topics) {
            TRY(tables.row(currency_form(), cells_of(pair, topic)));
        }
    }
    if (const auto failure = lookup_.failure()) return *failure;
    return {};
}

// All topics of a class that lapse on one day are one date.
void Currency::add_evaluations(std::vector<DueDate>& due) const {
    for (const PersonClass& pair : pairs()) {
        if (!pair.authorised) continue;
        std::map<Date, DueDate> by_day;
        const auto known = topics_.find(pair.person);
        for (const Topic& topic : pair.machine_class->topics) {
            if (known == topics_.end() || !known->second.contains(topic.id)) continue;
            const TopicState& state = known->second.at(topic.id);
            const auto evaluated = date_in(state.evaluated);
            if (!evaluated) continue;
            const Date day = valid_until(topic, *evaluated);
            DueDate& item = by_day[day];
            item.on = day;
            item.entry = std::max(item.entry, state.latest.n);
            item.details += (item.details.empty() ? "" : ", ") + topic.name.in("en");
        }
        int number = 0;
        for (auto& [day, item] : by_day) {
            item.id = "evaluation/" + pair.person + "/" + pair.machine_class->id;
            if (++number > 1) item.id += "/" + std::to_string(number);
            item.what = "Evaluation due: " + pair.person + ", " +
                        pair.machine_class->short_name.in("en");
            due.push_back(item);
        }
    }
}

std::vector<DueDate> Currency::due_dates() const {
    std::vector<DueDate> due;
    add_evaluations(due);
    for (const auto& [machine, inspection] : inspections_) {
        const auto day = date_in(inspection.on);
        const bool wanted = scope_.person.empty() &&
                            (scope_.machine.empty() || scope_.machine == machine);
        if (!day || !wanted) continue;
        due.push_back({"inspection/" + machine, *day, "Inspection due: " + machine, "",
                       inspection.entry});
    }
    for (const auto& [person, listing] : listings_) {
        const auto day = date_in(listing.on);
        const bool wanted = scope_.machine.empty() &&
                            (scope_.person.empty() || scope_.person == person);
        if (!day || !wanted) continue;
        due.push_back({"listing/" + person, *day, "Listing as trainer or evaluator ends: " + person,
                       "", listing.entry});
    }
    for (const auto& [serial, cylinder] : cylinders_) {
        const auto day = month_end(cylinder.on);
        if (!day || !scope_.person.empty() || !scope_.machine.empty()) continue;
        due.push_back({"cylinder/" + serial, *day, "Cylinder due for its test: " + serial, "",
                       cylinder.entry});
    }
    std::stable_sort(due.begin(), due.end(),
                     [](const DueDate& a, const DueDate& b) { return a.on < b.on; });
    return due;
}

}  // namespace holdpin
