#include "flows/air_alarm_pages.hpp"

#include "flows/air.hpp"
#include "flows/desk.hpp"
#include "flows/emergency.hpp"

namespace holdpin {
namespace {


std::string page_id(const AirAlarm& alarm, const char* step) {
    return "air-alarm/" + alarm.room + "/" + step;
}

// The sheet as it is, under the room and with what the hold does not do.
Result<Page> leaving_page(const Session& session, const AirAlarm& alarm) {
    const Say say = session.say();
    Page page = TRY(sheet_page(session, std::string(kSheetOfAlarm)));
    page.id += "/" + alarm.room;
    auto& body = std::get<SheetBody>(page.body);
    body.title = session.room_name(alarm.room) + " · " + alarm_line(session, alarm);
    const std::string held = say("alarm.stops-none");
    if (!body.act.empty()) body.act.front() = held + " " + body.act.front();
    page.main = {"next", say("alarm.outside"), say("alarm.outside-second"), true, ""};
    return page;
}

Row head_row(const Session& session, const AlarmWork& work, const std::string& who) {
    const Say say = session.say();
    const Head head = work.head(who);
    Row row;
    row.id = "head:" + who;
    row.label = who == kOthers ? say("alarm.others") : session.name(who);
    row.second = say(who == kOthers ? "alarm.others-second" : "alarm.listed");
    row.word = say(head == Head::seen      ? "alarm.seen"
                   : head == Head::missing ? "alarm.not-seen"
                                           : "alarm.unasked");
    row.mark = head == Head::seen      ? LugState::open
               : head == Head::missing ? LugState::held
                                       : LugState::due;
    return row;
}

Page counting_page(const Session& session, const AirAlarm& alarm, const AlarmWork& work) {
    const Say say = session.say();
    Page page = session.blank(page_id(alarm, "counting"));
    ListBody body;
    body.heading = say("alarm.count");
    body.remark = say("alarm.count-remark");
    bool all = true;
    for (const std::string& who : heads_of(alarm)) {
        body.rows.push_back(head_row(session, work, who));
        all = all && work.head(who) != Head::unasked;
    }
    page.body = std::move(body);
    page.main = {"counted", say("alarm.counted"), say("alarm.counted-second"), all,
                 say("alarm.count-all")};
    return page;
}

Page missing_page(const Session& session, const AirAlarm& alarm, const AlarmWork& work) {
    const Say say = session.say();
    Page page = session.blank(page_id(alarm, "missing"));
    std::vector<std::string> names;
    for (const std::string& who : heads_of(alarm)) {
        if (work.head(who) != Head::missing) continue;
        names.push_back(who == kOthers ? say("alarm.others-missing") : session.name(who));
    }
    MessageBody body;
    body.mark = LugState::held;
    body.heading = say("alarm.missing", {{"names", joined(names, ", ")}});
    body.lines = {say("alarm.missing-call",
                      {{"number", session.content().site.emergency_number}}),
                  say("alarm.missing-never"), say("alarm.missing-wait")};
    page.body = std::move(body);
    page.main = {"next", say("alarm.count-again"), say("alarm.count-again-second"), true, ""};
    return page;
}

std::string time_text(const Say& say, int minutes) {
    const Args args{{"hours", std::to_string(minutes / 60)},
                    {"minutes", std::to_string(minutes < 60 ? minutes : minutes % 60)}};
    return say(minutes < 60 ? "alarm.minutes" : "alarm.hours", args);
}

std::string airing_line(const Session& session, const AlarmWork& work, const AiringNow& airing) {
    const Say say = session.say();
    if (work.engine_runs) return say("alarm.engine-inside");
    if (!airing.minutes_left) return say("alarm.airing-long");
    if (*airing.minutes_left == 0) return say("alarm.airing-over");
    const std::int64_t until_ms = session.now() + *airing.minutes_left * 60'000LL;
    return say("alarm.airing-left", {{"time", time_text(say, *airing.minutes_left)},
                                     {"until", session.clock(until_ms)}});
}

Row engine_row(const Session& session, const AlarmWork& work) {
    const Say say = session.say();
    Row row = work_row("engine", say("alarm.engine"), say("alarm.engine-second"), "");
    row.word = say(work.engine_runs ? "alarm.yes" : "alarm.no");
    row.chosen = work.engine_runs;
    return row;
}

Result<Page> airing_page(const Session& session, const AirAlarm& alarm, const AlarmWork& work) {
    const Say say = session.say();
    const auto airing = airing_of(session, alarm.room, work);
    Page page = session.blank(page_id(alarm, "airing"));
    ListBody body;
    body.desk = true;
    // Figures that the sum does not take leave no time to wait for, and everything else to do.
    body.heading = airing_line(session, work, airing.value_or(AiringNow{}));
    const double level = reentry_level_ppm(session.content().site.air);
    body.remark = say("alarm.airing-remark", {{"level", ppm_text(level)}});
    for (const SeenDoor& seen : TRY(airing_doors(session, alarm.room))) {
        body.rows.push_back(door_row(session, seen));
        if (seen.is != DoorIs::open) body.rows.back().second = say("alarm.door-second");
    }
    body.rows.push_back(engine_row(session, work));
    body.rows.push_back(
        work_row("next", say("alarm.count-again"), say("alarm.recount-second"), ""));
    page.body = std::move(body);
    page.main = {"enter", say("alarm.enter"), say("alarm.enter-second"), true, ""};
    return page;
}

Page entering_page(const Session& session, const AirAlarm& alarm) {
    const Say say = session.say();
    Page page = session.blank(page_id(alarm, "entering"));
    const double level = reentry_level_ppm(session.content().site.air);
    MessageBody body;
    body.mark = LugState::held;
    body.heading = say("alarm.before-entering");
    body.lines = {say("alarm.from-the-door"), say("alarm.two-people"),
                  say("alarm.below", {{"level", ppm_text(level)}}),
                  say("alarm.otherwise",
                      {{"number", session.content().site.emergency_number}})};
    page.body = std::move(body);
    page.main = session.person()
                    ? Button{"read", say("air.enter"), say("alarm.read-second"), true, ""}
                    : Button{"sign-on", say("floor.sign-on"), say("alarm.sign-on-second"), true,
                             ""};
    return page;
}

}  // namespace

std::vector<std::string> heads_of(const AirAlarm& alarm) {
    std::vector<std::string> heads = alarm.listed;
    heads.emplace_back(kOthers);
    return heads;
}

Result<std::vector<SeenDoor>> airing_doors(const Session& session, const std::string& room) {
    auto doors = TRY(doors_seen_from(session, room));
    std::erase_if(doors, [](const SeenDoor& seen) { return !seen.beyond.empty(); });
    return doors;
}

Result<Page> alarm_page(const Session& session, const AirAlarm& alarm, const AlarmWork& work) {
    if (session.content().room(alarm.room) == nullptr) {
        return Error{ErrorKind::absent, "there is no such room", alarm.room, ""};
    }
    Page page;
    switch (work.state) {
        case AlarmState::leaving: page = TRY(leaving_page(session, alarm)); break;
        case AlarmState::counting: page = counting_page(session, alarm, work); break;
        case AlarmState::missing: page = missing_page(session, alarm, work); break;
        case AlarmState::airing: page = TRY(airing_page(session, alarm, work)); break;
        case AlarmState::entering:
        case AlarmState::lifted: page = entering_page(session, alarm); break;
    }
    if (work.state != AlarmState::leaving) {
        page.middle =
            session.say()("alarm.tile", {{"room", session.room_name(alarm.room)}});
    }
    page.back = session.back_button();
    return page;
}

Page ended_page(const Session& session, const std::string& room) {
    const Say say = session.say();
    Page page = session.blank("air-alarm/" + room + "/ended");
    MessageBody body;
    body.mark = LugState::open;
    body.heading = say("alarm.ended", {{"room", session.room_name(room)}});
    const auto last = last_air_reading(session.db(), room, "");
    if (last.ok() && last.value()) {
        body.lines.push_back(say("alarm.ended-reading",
                                 {{"ppm", ppm_text(last.value()->ppm)},
                                  {"time", session.when(last.value()->at_ms)},
                                  {"name", session.name(last.value()->by)}}));
    }
    body.lines.push_back(say("alarm.ended-engine"));
    body.lines.push_back(say("alarm.record"));
    page.body = std::move(body);
    page.back = session.back_button();
    page.main = {"done", say("handed.done"), "", true, ""};
    return page;
}

}  // namespace holdpin
