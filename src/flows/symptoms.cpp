#include "flows/symptoms.hpp"

#include <algorithm>
#include <array>

#include "flows/air.hpp"
#include "flows/air_reading.hpp"
#include "flows/emergency.hpp"
#include "flows/floor.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"
#include "flows/room_doors.hpp"
#include "records/alarms.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kFelt = "room:";
constexpr std::string_view kSheetOfOne = "symptoms";

struct Answer {
    std::string_view id;
    int count;
    const char* drawing;
};
constexpr std::array kAnswers{Answer{"nobody", 0, "ill-none"}, Answer{"one", 1, "ill-one"},
                              Answer{"more", 2, "ill-two"}};

// The advice for one who is ill, and the offer to put a name to it.
class OneIllFlow final : public Flow {
  public:
    OneIllFlow(std::int64_t report, std::string room) : report_(report), room_(std::move(room)) {}

    Result<Page> page(const Session& session) const override {
        Page page = TRY(sheet_page(session, std::string(kSheetOfOne)));
        const Say say = session.say();
        page.main = {"name", say("symptoms.name"), say("symptoms.name-second"), true, ""};
        return page;
    }
    Result<Next> act(Session& session, const Action& action) override {
        if (action.id != "name") return Next::back();
        if (session.person()) return named(session, report_, room_, session.person_id());
        return Next::push(std::make_unique<BadgeFlow>(
            session.say()("symptoms.name"),
            [report = report_, room = room_](Session& s, const Person& person) {
                return named(s, report, room, person.id);
            }));
    }

  private:
    static Result<Next> named(Session& session, std::int64_t report, const std::string& room,
                              const std::string& person) {
        const Say say = session.say();
        Fact fact;
        fact.kind = "symptoms-named";
        fact.by = {person};
        fact.about = report;
        fact.data = {{"room", room}};
        TRY(session.book().enter(fact));
        return Next::finish(std::make_unique<MessageFlow>(
            LugState::open, say("symptoms.named"),
            std::vector<std::string>{say("symptoms.named-line"), say("alarm.record")}));
    }

    std::int64_t report_;
    std::string room_;
};

struct Said {
    std::string room;
    int count = 0;
    std::string source;         // "asked", "help"
    std::int64_t shift_ms = 0;  // of the shift that was asked; 0: nobody asked
};

Result<bool> raises(const Session& session, const Said& said) {
    if (said.count == 0 || TRY(air_alarm_of(session.db(), said.room))) return false;
    const int minutes = session.content().site.air.symptoms_minutes;
    auto reports =
        TRY(ill_reports(session.db(), said.room, session.now() - minutes * 60'000LL));
    reports.push_back({session.now(), said.count});
    return is_alarm(ill_within(reports, minutes, session.now()));
}

// The facts, none of them with a name.
Result<std::vector<Fact>> facts_of(const Session& session, const Said& said, bool alarm) {
    std::vector<Fact> facts;
    if (said.shift_ms != 0) {
        Fact asked;
        asked.kind = "symptoms-asked";
        asked.data = {{"room", said.room}, {"shift_ms", said.shift_ms}, {"count", said.count}};
        facts.push_back(std::move(asked));
    }
    if (said.count > 0) {
        Fact reported;
        reported.kind = "symptoms-reported";
        reported.data = {{"room", said.room}, {"count", said.count}, {"source", said.source}};
        facts.push_back(std::move(reported));
    }
    if (alarm) {
        facts.push_back(
            TRY(air_alarm_fact(session.world(), {said.room, AlarmCause::symptoms, "", ""})));
    }
    return facts;
}

// What follows for somebody who is ill; an alarm opens by itself.
Result<Next> enter(Session& session, const Said& said) {
    const bool alarm = TRY(raises(session, said));
    const auto entries = TRY(session.book().enter(TRY(facts_of(session, said, alarm))));
    if (said.count == 0 || alarm) return Next::done();
    return Next::done(std::make_unique<OneIllFlow>(entries.back().n, said.room));
}

// How many feel ill in this room.
class SymptomsFlow final : public Flow {
  public:
    SymptomsFlow(std::string room, std::int64_t shift_ms, Action pending)
        : room_(std::move(room)), shift_ms_(shift_ms), pending_(std::move(pending)) {}
    bool is_piece() const override { return true; }

    Result<Page> page(const Session& session) const override {
        const Say say = session.say();
        const bool asked = shift_ms_ != 0;
        Page page = session.blank((asked ? "symptoms-asked/" : "symptoms/") + room_);
        page.middle = session.room_name(room_);
        ChoiceBody body;
        body.question = say("symptoms.ask");
        body.look = say(asked ? "symptoms.ask-look" : "symptoms.say-look",
                        {{"room", session.room_name(room_)}});
        for (const Answer& answer : kAnswers) {
            if (!asked && answer.count == 0) continue;
            const std::string key = "symptoms." + std::string(answer.id);
            body.tiles.push_back({"ill:" + std::string(answer.id), say(key), "",
                                  answer.drawing, {}, true, ""});
        }
        body.remark = say("symptoms.private");
        page.body = std::move(body);
        page.back = session.back_button();
        return page;
    }

    Result<Next> act(Session& session, const Action& action) override {
        if (action.id == "back") return Next::back();
        for (const Answer& answer : kAnswers) {
            if (action.id != "ill:" + std::string(answer.id)) continue;
            if (shift_ms_ == 0 && answer.count == 0) return Next::stay();
            const Said said{room_, answer.count, shift_ms_ == 0 ? "help" : "asked", shift_ms_};
            Next next = TRY(enter(session, said));
            return answer.count == 0 ? go_on(session) : Result<Next>(std::move(next));
        }
        return Next::stay();
    }

  private:
    // What the person had come for, or the next room to be asked about.
    Result<Next> go_on(Session& session) const {
        if (auto another = TRY(mid_shift_question(session, pending_))) {
            return Next::replace(std::move(another));
        }
        Next next = TRY(FloorFlow().act(session, pending_));
        if (next.way == Next::Way::push) next.way = Next::Way::replace;
        if (next.way == Next::Way::stay) next.way = Next::Way::back;
        return next;
    }

    std::string room_;
    std::int64_t shift_ms_;
    Action pending_;
};

Result<bool> engine_out(const Session& session, const std::string& room) {
    for (const std::string& plate : TRY(machines_out_in(session.db(), room))) {
        const MachineClass* machine_class = class_of(session, plate);
        if (machine_class != nullptr && machine_class->has_engine) return true;
    }
    return false;
}

Result<bool> is_due(const Session& session, const Room& room) {
    MidShift question;
    question.shift = session.shift();
    if (!question.shift) return false;
    question.now_ms = session.now();
    question.engine_out = TRY(engine_out(session, room.id));
    const auto doors = TRY(doors_seen_from(session, room.id));
    question.shut = std::none_of(doors.begin(), doors.end(), [](const SeenDoor& seen) {
        return seen.beyond.empty() && seen.is == DoorIs::open;
    });
    question.alarm = TRY(air_alarm_of(session.db(), room.id)).has_value();
    question.asked = TRY(symptoms_asked(session.db(), room.id, question.shift->start_ms));
    return is_time_to_ask(question);
}

}  // namespace

Result<std::unique_ptr<Flow>> mid_shift_question(const Session& session, const Action& action) {
    for (const Room& room : session.content().site.rooms) {
        if (!TRY(is_due(session, room))) continue;
        return std::unique_ptr<Flow>(
            std::make_unique<SymptomsFlow>(room.id, session.shift()->start_ms, action));
    }
    return std::unique_ptr<Flow>();
}

std::unique_ptr<Flow> choose_ill_room(const Session& session) {
    const Say say = session.say();
    GridBody body;
    body.heading = say("symptoms.where");
    body.remark = say("symptoms.where-remark");
    for (const Room& room : session.content().site.rooms) {
        Tile tile;
        tile.id = std::string(kFelt) + room.id;
        tile.label = say(room.name);
        body.tiles.push_back(std::move(tile));
    }
    return std::make_unique<PickFlow>(
        "symptoms/room", std::move(body), [](Session&, const std::string& id) -> Result<Next> {
            return Next::push(std::make_unique<SymptomsFlow>(id.substr(kFelt.size()), 0, Action{}));
        });
}

}  // namespace holdpin
