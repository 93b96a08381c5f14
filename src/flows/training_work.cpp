#include "flows/training_work.hpp"

#include <algorithm>
#include <array>

#include "flows/desk.hpp"
#include "flows/pieces.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

struct Kind {
    TrainingKind kind;
    const char* id;
    Right right;
};
constexpr std::array kKinds{
    Kind{TrainingKind::instruct, "instruct", Right::instruct},
    Kind{TrainingKind::practise, "practise", Right::instruct},
    Kind{TrainingKind::evaluate, "evaluate", Right::evaluate},
    Kind{TrainingKind::authorise, "authorise", Right::authorise},
    Kind{TrainingKind::withdraw, "withdraw", Right::authorise},
    Kind{TrainingKind::refresh, "refresh", Right::authorise},
};

// Topics that a kind of step can be done for now: each stage stands on the one before.
std::vector<std::string> topics_for(TrainingKind kind, const MachineClass& machine_class,
                                    const TopicRecords& records, Date today) {
    std::vector<std::string> ids;
    for (const Topic& topic : machine_class.topics) {
        const TopicGap gap = topic_gap(topic, records, today);
        const bool fits =
            (kind == TrainingKind::instruct && gap == TopicGap::not_instructed &&
             topic.guide.empty()) ||
            (kind == TrainingKind::practise && gap == TopicGap::not_practised) ||
            (kind == TrainingKind::evaluate &&
             (gap == TopicGap::not_evaluated || gap == TopicGap::lapsed ||
              gap == TopicGap::refresher_open)) ||
            (kind == TrainingKind::refresh && gap == TopicGap::none);
        if (fits) ids.push_back(topic.id);
    }
    return ids;
}

Result<std::string> why_not_now(const Session& session, const Kind& kind, const std::string& person,
                                const MachineClass& machine_class, const TopicRecords& records) {
    const Say say = session.say();
    const std::string missing = "training.not-now-" + std::string(kind.id);
    const Date today = session.today();
    if (kind.kind == TrainingKind::authorise) {
        if (!is_current(machine_class, records, today)) return say(missing);
    } else if (kind.kind == TrainingKind::withdraw) {
        if (!TRY(authorisation_of(session.db(), person, machine_class.id))) return say(missing);
    } else if (topics_for(kind.kind, machine_class, records, today).empty()) {
        return say(missing);
    }
    const bool for_others = kind.kind == TrainingKind::practise ||
                            kind.kind == TrainingKind::evaluate ||
                            kind.kind == TrainingKind::authorise;
    if (for_others && session.person_id() == person) return say("refused.own-training");
    return why_not(session, kind.right, machine_class);
}

TickList topic_ticks(const Session& session, TrainingKind kind, const Kind& row,
                     const Person& person, const MachineClass& machine_class,
                     const TopicRecords& records) {
    const Say say = session.say();
    TickList list;
    const std::string name = std::string("training.") + row.id;
    list.page_id = std::string("desk/") + row.id;
    list.heading = say(name + "-heading", {{"name", person.name}});
    list.remark = say("training.tick-topics");
    list.main_label = say("bar.go-on");
    for (const std::string& id : topics_for(kind, machine_class, records, session.today())) {
        for (const Topic& topic : machine_class.topics) {
            if (topic.id != id) continue;
            Row tick;
            tick.id = id;
            tick.label = say(topic.name);
            tick.chosen = kind != TrainingKind::refresh;
            list.rows.push_back(std::move(tick));
        }
    }
    return list;
}

SignedWork work_for(const Session& session, const Kind& kind, const Person& person,
                    const MachineClass& machine_class) {
    const Say say = session.say();
    const std::string name = std::string("training.") + kind.id;
    constexpr std::array kEntries{"instructed", "practised",  "evaluated",
                                  "authorised", "authorisation-withdrawn", "refresher-opened"};
    SignedWork work;
    work.heading = say(name);
    work.statement =
        say(name + "-meaning", {{"name", person.name}, {"class", say(machine_class.name)}});
    work.kind = kEntries[static_cast<std::size_t>(kind.kind)];
    work.meaning = kind.id;
    work.data = {{"person", person.id}, {"class", machine_class.id}};
    return work;
}

// Trainee first, then the trainer: both were there.
Result<Next> sign_practice(Session& session, const Person& person, SignedWork work) {
    const Say say = session.say();
    return Next::push(std::make_unique<SignFlow>(
        person, say("training.practise"), say("training.practise-trainee"),
        [person, work = std::move(work)](Session& s) -> Result<Next> {
            SignedWork both = work;
            both.second = person.id;
            both.second_meaning = "practised-myself";
            return Next::push(sign_work(s, std::move(both)));
        }));
}

Result<Next> ask_evaluation(Session& session, SignedWork work) {
    const Say say = session.say();
    GridBody body;
    body.heading = say("training.evaluate-result");
    body.remark = say("training.evaluate-remark");
    body.tiles = {
        {"passed", say("training.passed"), say("training.passed-second"), "", {}, true, ""},
        {"failed", say("training.failed"), say("training.failed-second"), "", {}, true, ""}};
    return Next::push(std::make_unique<PickFlow>(
        "desk/evaluate-result", std::move(body),
        [work = std::move(work)](Session& s, const std::string& id) -> Result<Next> {
            TextBody text;
            text.heading = s.say()("training.evaluate-where");
            text.hint = s.say()("training.evaluate-where-hint");
            SignedWork with = work;
            with.data["passed"] = id == "passed";
            return Next::push(std::make_unique<TextFlow>(
                "desk/evaluate-where", std::move(text),
                [with](Session& t, const std::string& where) -> Result<Next> {
                    SignedWork full = with;
                    full.private_text = where;
                    full.about_person = with.data.at("person").get<std::string>();
                    return Next::push(sign_work(t, std::move(full)));
                }));
        }));
}

// Conditions that the kiosk enforces: rooms, then shifts; none ticked means everywhere or always.
Result<Next> ask_conditions(Session& session, SignedWork work) {
    const Say say = session.say();
    TickList list;
    list.page_id = "desk/conditions";
    list.heading = say("training.conditions");
    list.remark = say("training.conditions-remark");
    list.main_label = say("bar.go-on");
    list.none_allowed = true;
    for (const Room& room : session.content().site.rooms) {
        Row row;
        row.id = "room:" + room.id;
        row.label = say(room.name);
        list.rows.push_back(std::move(row));
    }
    for (const Shift& shift : session.content().site.shifts) {
        Row row;
        row.id = "shift:" + shift.id;
        row.label = say(shift.name);
        row.second = clock_text(shift.start_min) + " – " + clock_text(shift.end_min);
        list.rows.push_back(std::move(row));
    }
    return Next::push(std::make_unique<TickFlow>(
        std::move(list),
        [work = std::move(work)](Session& s,
                                 const std::vector<std::string>& ticked) -> Result<Next> {
            SignedWork full = work;
            full.data["rooms"] = Json::array();
            full.data["shifts"] = Json::array();
            for (const std::string& id : ticked) {
                const auto colon = id.find(':');
                full.data[id.starts_with("room:") ? "rooms" : "shifts"].push_back(
                    id.substr(colon + 1));
            }
            return Next::push(sign_work(s, std::move(full)));
        }));
}

const Kind& kind_row(TrainingKind kind) { return kKinds[static_cast<std::size_t>(kind)]; }

}  // namespace

Result<std::vector<TrainingOffer>> training_offers(const Session& session,
                                                   const std::string& person,
                                                   const MachineClass& machine_class) {
    const TopicRecords records = TRY(topics_of(session.db(), person));
    const Say say = session.say();
    std::vector<TrainingOffer> offers;
    for (const Kind& kind : kKinds) {
        const std::string name = std::string("training.") + kind.id;
        offers.push_back({kind.kind, work_row(kind.id, say(name), say(name + "-second"),
                                              TRY(why_not_now(session, kind, person, machine_class,
                                                              records)))});
    }
    return offers;
}

Result<Next> begin_training_work(Session& session, TrainingKind kind, const Person& person,
                                 const MachineClass& machine_class) {
    const Kind& row = kind_row(kind);
    SignedWork work = work_for(session, row, person, machine_class);
    if (kind == TrainingKind::authorise) return ask_conditions(session, std::move(work));
    if (kind == TrainingKind::withdraw) return Next::push(sign_work(session, std::move(work)));
    const TopicRecords records = TRY(topics_of(session.db(), person.id));
    return Next::push(std::make_unique<TickFlow>(
        topic_ticks(session, kind, row, person, machine_class, records),
        [kind, person, work = std::move(work)](
            Session& s, const std::vector<std::string>& topics) -> Result<Next> {
            SignedWork with = work;
            with.data["topics"] = topics;
            if (kind == TrainingKind::practise) return sign_practice(s, person, std::move(with));
            if (kind == TrainingKind::evaluate) return ask_evaluation(s, std::move(with));
            return Next::push(sign_work(s, std::move(with)));
        }));
}

}  // namespace holdpin
