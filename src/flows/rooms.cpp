#include "flows/rooms.hpp"

#include <algorithm>
#include <cmath>

#include "flows/air.hpp"
#include "flows/air_alarm.hpp"
#include "flows/desk.hpp"
#include "flows/estimates.hpp"
#include "flows/machine.hpp"
#include "flows/meter_reading.hpp"
#include "flows/pieces.hpp"
#include "flows/room_doors.hpp"
#include "records/site_duties.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kRoom = "room:";
constexpr std::string_view kDoor = "door:";
constexpr const char* kEyewash = "eyewash";
constexpr int kEyewashDays = 7;  // weekly: ANSI Z358.1, from memory

std::string forecast_line(const Session& session, const RoomAirNow& air) {
    const Say say = session.say();
    if (air.engines + air.beyond == 0) return say("air.no-engine");
    if (!air.forecast) return say("air.no-forecast");
    const Args args{{"engines", std::to_string(air.engines)},
                    {"end", ppm_text(air.forecast->end_ppm)},
                    {"level", ppm_text(air.forecast->level_ppm)},
                    {"minutes", std::to_string(air.forecast->minutes_to_level.value_or(0))}};
    if (!air.forecast->minutes_to_level) return say("air.stays", args);
    return say(air.forecast->is_average ? "air.passes-average" : "air.passes-ceiling", args);
}

Result<Next> set_door(Session& session, const SeenDoor& seen) {
    const bool open = seen.is == DoorIs::open;
    Fact fact;
    fact.kind = "door-set";
    if (session.person()) fact.by = {session.person_id()};
    fact.data = {{"room", seen.room}, {"door", seen.door->id}, {"open", !open}};
    TRY(session.book().enter(fact));
    return Next::stay();
}

Result<Next> set_room(Session& session, const std::string& room) {
    const bool closed = TRY(room_closed(session.db(), room));
    const Say say = session.say();
    SignedWork work;
    work.heading = say(closed ? "rooms.open-sign" : "rooms.close-sign",
                       {{"room", session.room_name(room)}});
    work.statement = say(closed ? "rooms.open-meaning" : "rooms.close-meaning");
    work.kind = "room-set";
    work.meaning = closed ? "opened-to-engines" : "closed-to-engines";
    work.data = {{"room", room}, {"closed", !closed}};
    return Next::push(sign_work(session, std::move(work)));
}

// Closing is for everybody who has the duty; opening, for who is current too.
Result<std::string> why_not_set(const Session& session, const std::string& room) {
    if (TRY(room_closed(session.db(), room))) {
        return why_not_in_room(session, Right::return_to_service, room);
    }
    return session.may(Right::return_to_service) ? std::string()
                                                 : session.say()("refused.no-right");
}

Row forecast_row(const Session& session, const RoomAirNow& air) {
    Row row;
    row.label = forecast_line(session, air);
    row.second = session.say()("air.estimate");
    if (air.beyond > 0) {
        row.second = session.say()("joined-air.beyond", {{"count", std::to_string(air.beyond)}}) +
                     ". " + row.second;
    }
    const bool passes = air.forecast && air.forecast->minutes_to_level;
    row.mark = passes ? LugState::due : LugState::open;
    return row;
}

// A mean and a forecast are not known any better.
std::string tenths(double ppm) { return ppm_text(std::round(ppm * 10) / 10); }

// From the readings themselves: what the engines that run now do to the air.
Row fitted_row(const Session& session, const MeasuredAir& measured) {
    const Say say = session.say();
    const double level = session.content().site.air.average_ppm;
    const ShiftForecast& forecast = *measured.forecast;
    const auto& ceiling = forecast.unfavourable.minutes_to_limit;
    const bool over = forecast.unfavourable_8h_ppm >= level;
    Row row;
    row.label = say("meter.fitted", {{"count", std::to_string(measured.fit->readings)},
                                     {"end", tenths(forecast.likely.end_ppm)},
                                     {"high", tenths(forecast.unfavourable.end_ppm)},
                                     {"mean", tenths(forecast.unfavourable_8h_ppm)}});
    row.second = say("air.estimate");
    row.mark = over || ceiling ? LugState::due : LugState::open;
    return row;
}

Row means_row(const Session& session, const MeasuredAir& measured) {
    const Say say = session.say();
    const RollingMean& means = measured.means;
    const auto minutes = [](double covered) { return std::to_string(std::lround(covered)); };
    Row row;
    row.label = say("meter.means", {{"quarter", tenths(means.mean_15min_ppm)},
                                    {"eight", tenths(means.mean_8h_ppm)}});
    row.second = say("meter.covered", {{"quarter", minutes(means.covered_15min)},
                                       {"eight", minutes(means.covered_8h)}});
    return row;
}

// The fit counts the engines that run; one more than those only the planning forecast can count.
Result<void> add_air_rows(const Session& session, const Room& room, const RoomAirNow& air,
                          bool planning, ListBody& body) {
    const auto measured = TRY(measured_now(session, room));
    const bool fitted = measured && measured->forecast;
    if (planning || !fitted) body.rows.push_back(forecast_row(session, air));
    if (fitted) body.rows.push_back(fitted_row(session, *measured));
    if (measured) body.rows.push_back(means_row(session, *measured));
    return {};
}

Row reading_row(const Session& session, const RoomAirNow& air) {
    const Say say = session.say();
    Row row = work_row("reading", say("air.enter"),
                       air.last ? say("air.last", {{"ppm", ppm_text(air.last->ppm)},
                                                   {"time", session.clock(air.last->at_ms)}})
                                : say("air.none"),
                       session.person() ? "" : say("refused.sign-on"));
    return row;
}

// Empty where the site has none.
Result<std::vector<Row>> eyewash_rows(const Session& session) {
    std::vector<Row> rows;
    const Say say = session.say();
    const Text& place = session.content().site.eyewash;
    if (place.empty()) return rows;
    Row row;
    row.id = kEyewash;
    row.label = say("rooms.eyewash", {{"place", say(place)}});
    row.second = say("rooms.eyewash-never");
    row.word = say("rooms.eyewash-due");
    row.mark = LugState::due;
    if (const auto last = TRY(last_eyewash_run(session.db()))) {
        const Date on = session.world().zone.local(last->at_ms).date;
        row.second = say("rooms.eyewash-last",
                         {{"date", session.date(on)}, {"name", session.name(last->by)}});
        if (session.today() <= add_days(on, kEyewashDays)) {
            row.word.clear();
            row.mark = LugState::open;
        }
    }
    rows.push_back(std::move(row));
    return rows;
}

Result<Next> run_eyewash(Session& session) {
    const Say say = session.say();
    SignedWork work;
    work.heading = say("rooms.eyewash-run");
    work.statement = say("rooms.eyewash-meaning");
    work.kind = "eyewash-run";
    work.meaning = "let-it-run-clear";
    work.data = nlohmann::json::object();
    return Next::push(sign_work(session, std::move(work)));
}

}  // namespace

Result<Page> RoomsFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("desk/rooms");
    page.middle = say("desk.rooms");
    ListBody body;
    body.desk = true;
    body.heading = say("rooms.heading");
    body.remark = say("rooms.remark");
    for (const Room& room : session.content().site.rooms) {
        const RoomAirNow air = TRY(air_now(session, room.id));
        const bool closed = TRY(room_closed(session.db(), room.id));
        Row row;
        row.id = std::string(kRoom) + room.id;
        row.label = say(room.name);
        const std::string silent = TRY(silent_meters(session, room.id));
        row.second = silent.empty() ? forecast_line(session, air) : silent;
        row.word = say(air.alarm ? "rooms.alarm" : closed ? "rooms.closed" : "rooms.open");
        row.mark = air.alarm || closed ? LugState::held
                   : silent.empty()    ? LugState::open
                                       : LugState::due;
        body.rows.push_back(std::move(row));
    }
    for (Row& row : TRY(eyewash_rows(session))) body.rows.push_back(std::move(row));
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> RoomsFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id == kEyewash && !session.content().site.eyewash.empty()) {
        return run_eyewash(session);
    }
    if (!action.id.starts_with(kRoom)) return Next::stay();
    return Next::push(std::make_unique<RoomFlow>(action.id.substr(kRoom.size())));
}

Result<Page> RoomFlow::page(const Session& session) const {
    const Say say = session.say();
    const Room* room = session.content().room(room_);
    if (room == nullptr) return Error{ErrorKind::absent, "there is no such room", room_, ""};
    const RoomAirNow air = TRY(air_now(session, room_, plate_));
    Page page = session.blank("room-air/" + room_);
    page.middle = say(room->name);
    ListBody body;
    body.heading = air.alarm ? alarm_line(session, *air.alarm) : say("air.heading");
    body.remark = say(air.alarm ? "air.alarm-remark" : "air.doors-remark");
    if (air.alarm) {
        body.rows.push_back(
            work_row("alarm", say("alarm.go-on"), say("alarm.go-on-second"), ""));
    }
    TRY(add_air_rows(session, *room, air, !plate_.empty(), body));
    for (const SeenDoor& seen : TRY(doors_seen_from(session, room_))) {
        body.rows.push_back(door_row(session, seen));
    }
    if (!plate_.empty()) {
        body.rows.push_back(work_row("another", say("air.another"), say("air.another-second"), ""));
    }
    body.rows.push_back(reading_row(session, air));
    body.rows.push_back(work_row("estimates", say("estimates.room-row"),
                                 say("estimates.room-row-second"),
                                 session.person() ? "" : say("refused.sign-on")));
    const bool closed = TRY(room_closed(session.db(), room_));
    body.rows.push_back(work_row("set-room", say(closed ? "rooms.touch-open" : "rooms.touch-close"),
                                 say("rooms.remark"), TRY(why_not_set(session, room_))));
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> RoomFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id == "reading" && session.person()) {
        return ask_reading(session, room_, [](Session& s, const ReadingDone& done) -> Result<Next> {
            const bool stays = done.in_alarm && done.refusal != LiftRefusal::none;
            return Next::done(stays ? alarm_stays(s, done) : nullptr);
        });
    }
    if (action.id == "alarm" && TRY(air_alarm_of(session.db(), room_))) {
        return Next::push(std::make_unique<AirAlarmFlow>(room_));
    }
    if (action.id == "estimates" && session.person()) {
        return Next::push(std::make_unique<EstimatesFlow>(room_));
    }
    if (action.id == "set-room" && TRY(why_not_set(session, room_)).empty()) {
        return set_room(session, room_);
    }
    if (action.id == "another" && !plate_.empty()) return choose_room(session, plate_);
    if (!action.id.starts_with(kDoor)) return Next::stay();
    const std::string door = action.id.substr(kDoor.size());
    for (const SeenDoor& seen : TRY(doors_seen_from(session, room_))) {
        if (seen.door->id == door) return set_door(session, seen);
    }
    return Next::stay();
}

}  // namespace holdpin
