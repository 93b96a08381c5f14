#include "flows/air_alarm.hpp"

#include <algorithm>

#include "flows/air.hpp"
#include "flows/air_alarm_pages.hpp"
#include "flows/air_reading.hpp"
#include "flows/meter_reading.hpp"
#include "flows/pieces.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kHead = "head:";
constexpr std::string_view kAlarmDoor = "door:";
constexpr std::string_view kAlarmRoom = "room:";

std::optional<AlarmRow> row_for(const AlarmWork& work, AlarmEvent event, AlarmGuard guard) {
    return step(kAirAlarmTable, work.state, event, [guard](AlarmGuard asked) {
        return asked == AlarmGuard::always || asked == guard;
    });
}

// Signs on and comes back to the alarm; a round left unfinished waits.
Result<Next> sign_on_here(Session& session, const Person& person) {
    Fact fact;
    fact.kind = "signed-on";
    fact.by = {person.id};
    TRY(session.book().enter(fact));
    session.open_person(person);
    return Next::done();
}

Fact heads_fact(const Session& session, const AlarmWork& work, const AirAlarm& alarm) {
    std::vector<std::string> seen;
    std::vector<std::string> missing;
    for (const std::string& who : heads_of(alarm)) {
        (work.head(who) == Head::seen ? seen : missing).push_back(who);
    }
    Fact fact;
    fact.kind = "heads-counted";
    if (session.person()) fact.by = {session.person_id()};
    fact.about = alarm.entry;
    fact.data = {{"room", alarm.room}, {"seen", seen}, {"missing", missing}};
    return fact;
}

Result<Next> raise_by_hand(Session& session, const std::string& room) {
    if (session.content().room(room) == nullptr) return Next::stay();
    if (TRY(air_alarm_of(session.db(), room))) {
        return Next::done(std::make_unique<AirAlarmFlow>(room));
    }
    TRY(session.book().enter(TRY(air_alarm_fact(
        session.world(), {room, AlarmCause::button, "", session.person_id()}))));
    // It opens by itself.
    return Next::done();
}

}  // namespace

Result<Page> AirAlarmFlow::page(const Session& session) const {
    const auto alarm = TRY(air_alarm_of(session.db(), room_));
    if (!alarm) return ended_page(session, room_);
    return alarm_page(session, *alarm, TRY(alarm_work(session.db(), *alarm)));
}

Result<Next> AirAlarmFlow::act(Session& session, const Action& action) {
    const auto alarm = TRY(air_alarm_of(session.db(), room_));
    if (!alarm) return Next::back();
    AlarmWork work = TRY(alarm_work(session.db(), *alarm));
    if (action.id == "back") {
        return row_for(work, AlarmEvent::withdraw, AlarmGuard::always)
                   ? go(session, std::move(work), AlarmEvent::withdraw)
                   : Result<Next>(Next::back());
    }
    if (action.id == "next") return go(session, std::move(work), AlarmEvent::next);
    if (action.id == "enter") return go(session, std::move(work), AlarmEvent::enter);
    if (action.id == "counted") return count(session, std::move(work), *alarm);
    if (action.id == "engine") return touch_engine(session, std::move(work));
    if (action.id.starts_with(kHead)) {
        return tick(session, std::move(work), action.id.substr(kHead.size()));
    }
    if (action.id.starts_with(kAlarmDoor)) {
        return touch_door(session, std::move(work), action.id.substr(kAlarmDoor.size()));
    }
    if (work.state != AlarmState::entering) return Next::stay();
    if (action.id == "read" && session.person()) return enter_reading(session);
    if (action.id == "sign-on" && !session.person()) {
        return Next::push(
            std::make_unique<BadgeFlow>(session.say()("floor.sign-on"), sign_on_here));
    }
    return Next::stay();
}

// A step that only moves on.
Result<Next> AirAlarmFlow::go(Session& session, AlarmWork work, AlarmEvent event) {
    const auto row = row_for(work, event, AlarmGuard::always);
    if (!row) return Next::stay();
    // Counted again: nobody is taken as seen because they were seen before.
    if (row->to == AlarmState::counting) work.heads.clear();
    work.state = row->to;
    TRY(keep_alarm_work(session, room_, work));
    return Next::stay();
}

Result<Next> AirAlarmFlow::tick(Session& session, AlarmWork work, const std::string& who) {
    const auto alarm = TRY(air_alarm_of(session.db(), room_));
    const auto heads = heads_of(*alarm);
    const bool listed = std::find(heads.begin(), heads.end(), who) != heads.end();
    if (!listed || !row_for(work, AlarmEvent::tick, AlarmGuard::always)) return Next::stay();
    work.heads[who] = work.head(who) == Head::seen ? Head::missing : Head::seen;
    TRY(keep_alarm_work(session, room_, work));
    return Next::stay();
}

Result<Next> AirAlarmFlow::count(Session& session, AlarmWork work, const AirAlarm& alarm) {
    bool all = true;
    for (const std::string& who : heads_of(alarm)) {
        if (work.head(who) == Head::unasked) return Next::stay();
        all = all && work.head(who) == Head::seen;
    }
    const auto row = row_for(work, AlarmEvent::counted,
                             all ? AlarmGuard::all_seen : AlarmGuard::missing);
    if (!row) return Next::stay();
    work.state = row->to;
    // Airing counts from here: before, somebody was inside and an engine may have been running.
    work.since_ms = session.now();
    work.from_ppm = TRY(airing_from(session, alarm));
    TRY(session.book().enter(heads_fact(session, work, alarm),
                             [&] { return keep_alarm_work(session, room_, work); }));
    return Next::stay();
}

// What was aired so far counts as it was; from now on the door counts, too.
Result<Next> AirAlarmFlow::touch_door(Session& session, AlarmWork work, const std::string& door) {
    const auto doors = TRY(airing_doors(session, room_));
    const auto seen = std::find_if(doors.begin(), doors.end(),
                                   [&](const SeenDoor& one) { return one.door->id == door; });
    const bool known = seen != doors.end();
    if (!known || !row_for(work, AlarmEvent::door, AlarmGuard::always)) return Next::stay();
    if (const auto airing = airing_of(session, room_, work); airing.ok()) {
        work.from_ppm = airing.value().ppm;
        work.since_ms = session.now();
    }
    Fact fact;
    fact.kind = "door-set";
    if (session.person()) fact.by = {session.person_id()};
    fact.data = {{"room", room_}, {"door", door}, {"open", seen->is != DoorIs::open}};
    TRY(session.book().enter(fact, [&] { return keep_alarm_work(session, room_, work); }));
    return Next::stay();
}

// While one runs nobody knows the air; when it is off, airing begins anew.
Result<Next> AirAlarmFlow::touch_engine(Session& session, AlarmWork work) {
    if (!row_for(work, AlarmEvent::engine, AlarmGuard::always)) return Next::stay();
    work.engine_runs = !work.engine_runs;
    work.from_ppm = kUnmeasuredPpm;
    work.since_ms = session.now();
    TRY(keep_alarm_work(session, room_, work));
    return Next::stay();
}

Result<Next> AirAlarmFlow::enter_reading(Session& session) {
    return ask_reading(session, room_, [](Session& s, const ReadingDone& done) -> Result<Next> {
        if (done.in_alarm && done.refusal == LiftRefusal::none) return Next::done();
        return Next::done(alarm_stays(s, done));
    });
}

std::unique_ptr<Flow> alarm_stays(const Session& session, const ReadingDone& done) {
    const Say say = session.say();
    const double level = reentry_level_ppm(session.content().site.air);
    const Args args{{"ppm", ppm_text(done.ppm)}, {"level", ppm_text(level)}};
    const char* why = done.refusal == LiftRefusal::not_below     ? "alarm.stays-not-below"
                      : done.refusal == LiftRefusal::not_counted ? "alarm.stays-not-counted"
                      : done.refusal == LiftRefusal::not_current ? "alarm.stays-not-current"
                                                                 : "alarm.stays-not-entitled";
    return std::make_unique<MessageFlow>(
        LugState::held, say("alarm.stays"),
        std::vector<std::string>{say(why, args), say("alarm.record")});
}

std::unique_ptr<Flow> choose_alarm_room(const Session& session) {
    const Say say = session.say();
    GridBody body;
    body.heading = say("alarm.which");
    body.remark = say("alarm.which-remark");
    for (const Room& room : session.content().site.rooms) {
        Tile tile;
        tile.id = std::string(kAlarmRoom) + room.id;
        tile.label = say(room.name);
        body.tiles.push_back(std::move(tile));
    }
    return std::make_unique<PickFlow>("air-alarm/room", std::move(body),
                                      [](Session& s, const std::string& id) {
                                          return raise_by_hand(s, id.substr(kAlarmRoom.size()));
                                      });
}

}  // namespace holdpin
