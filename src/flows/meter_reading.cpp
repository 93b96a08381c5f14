#include "flows/meter_reading.hpp"

#include "base/text.hpp"
#include "flows/air.hpp"
#include "flows/air_alarm_work.hpp"
#include "flows/air_reading.hpp"
#include "flows/desk.hpp"
#include "flows/pieces.hpp"

namespace holdpin {
namespace {

struct Typed {
    std::string room;
    std::string ppm;
    std::string instrument;
    double value = 0;
};

Result<Fact> reading_fact(const Session& session, const Typed& typed, bool in_alarm) {
    const auto present = TRY(people_in(session.db(), typed.room, session.now()));
    return session.signed_fact("air-read", session.person_id(),
                               in_alarm ? "read-from-the-door" : "read-the-meter",
                               {{"room", typed.room}, {"ppm", typed.ppm},
                                {"instrument", typed.instrument}, {"source", "typed"},
                                {"present", present}});
}

Result<LiftRefusal> lift_refusal(const Session& session, const Typed& typed,
                                 const AirAlarm& alarm) {
    const AlarmWork work = TRY(alarm_work(session.db(), alarm));
    LiftQuestion question;
    question.ppm = typed.value;
    question.level_ppm = reentry_level_ppm(session.content().site.air);
    // Heads are counted anew whenever somebody may be inside; before that nobody was.
    const bool counted = work.state == AlarmState::airing || work.state == AlarmState::entering;
    question.counted = counted && not_seen(alarm, work, session.person_id()).empty();
    const Refusal refusal =
        TRY(refusal_in_room(session, Right::return_to_service, typed.room));
    question.entitled = refusal != Refusal::no_right;
    question.current = refusal == Refusal::none;
    return judge_lift(question);
}

// What a reading does to an alarm that stands.
Result<void> enter_in_alarm(Session& session, const Typed& typed, const AirAlarm& alarm,
                            ReadingDone& done) {
    done.refusal = TRY(lift_refusal(session, typed, alarm));
    std::vector<Fact> facts{TRY(reading_fact(session, typed, true))};
    if (done.refusal != LiftRefusal::none) {
        AlarmWork work = TRY(alarm_work(session.db(), alarm));
        if (work.state == AlarmState::entering) work.state = AlarmState::airing;
        TRY(session.book().enter(std::move(facts), [&]() -> Result<void> {
            return keep_alarm_work(session, typed.room, work);
        }));
        return {};
    }
    Fact lifted;
    lifted.kind = "air-alarm-lifted";
    lifted.by = {session.person_id()};
    lifted.about = alarm.entry;
    lifted.data = {{"room", typed.room}, {"ppm", typed.ppm}};
    facts.push_back(std::move(lifted));
    TRY(session.book().enter(std::move(facts),
                             [&] { return drop_alarm_work(session, typed.room); }));
    return {};
}

Result<Next> enter_reading(Session& session, Typed typed, const ThenReading& then) {
    typed.value = TRY(parse_decimal(typed.ppm));
    ReadingDone done;
    done.ppm = typed.value;
    const auto alarm = TRY(air_alarm_of(session.db(), typed.room));
    done.in_alarm = alarm.has_value();
    if (alarm) {
        TRY(enter_in_alarm(session, typed, *alarm, done));
        return then(session, done);
    }
    std::vector<Fact> facts{TRY(reading_fact(session, typed, false))};
    if (TRY(raises_alarm(session.world(), typed.room, typed.value))) {
        const AlarmRaised raised{typed.room, AlarmCause::reading, typed.ppm, session.person_id()};
        facts.push_back(TRY(air_alarm_fact(session.world(), raised)));
    }
    TRY(session.book().enter(std::move(facts)));
    return then(session, done);
}

Result<Next> sign_reading(Session& session, const Typed& typed, const ThenReading& then) {
    const Say say = session.say();
    const bool in_alarm = TRY(air_alarm_of(session.db(), typed.room)).has_value();
    return Next::push(std::make_unique<SignFlow>(
        *session.person(), say("air.sign"),
        say(in_alarm ? "alarm.read-meaning" : "air.meaning",
            {{"room", session.room_name(typed.room)}, {"ppm", typed.ppm}}),
        [typed, then](Session& s) { return enter_reading(s, typed, then); }));
}

}  // namespace

Result<Next> ask_reading(const Session& session, const std::string& room, ThenReading then) {
    const Say say = session.say();
    return Next::push(std::make_unique<NumberFlow>(
        "air/reading/" + room, NumberAsk{say("air.ask"), say("air.look"), "ppm"},
        [room, then = std::move(then)](Session& s, const std::string& ppm) -> Result<Next> {
            TextBody body;
            body.heading = s.say()("air.instrument");
            body.hint = s.say()("air.instrument-hint");
            body.codes = true;
            body.most = 24;
            return Next::push(std::make_unique<TextFlow>(
                "air/instrument/" + room, std::move(body),
                [room, ppm, then](Session& t, const std::string& instrument) {
                    return sign_reading(t, {room, ppm, instrument, 0}, then);
                }));
        }));
}

}  // namespace holdpin
