#include "flows/emergency.hpp"

#include <algorithm>
#include <array>

#include "flows/air_alarm.hpp"
#include "flows/air_alarm_pages.hpp"
#include "flows/data_sheets.hpp"
#include "flows/leak_found.hpp"
#include "flows/no_start.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"
#include "flows/symptoms.hpp"
#include "flows/tags.hpp"
#include "records/alarms.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kSheet = "sheet:";
constexpr std::string_view kReportOn = "report:";
constexpr std::string_view kWhat = "what:";
constexpr std::string_view kAlarm = "alarm:";
constexpr std::size_t kKillFirst = 3;  // so many sheets, in their own order, stand above the rest

// What people report, and what kind of trouble that is.
struct Trouble {
    std::string_view id;
    Hazard hazard;
};
constexpr std::array kTroubles{
    Trouble{"gas", Hazard::lp_leak},          Trouble{"brakes", Hazard::brake},
    Trouble{"steering", Hazard::steering},    Trouble{"hopper", Hazard::hopper_support},
    Trouble{"air", Hazard::air},              Trouble{"guard", Hazard::guard},
    Trouble{"electrical", Hazard::electrical}, Trouble{"other", Hazard::none},
};

// The last page of a report: it stands, and what to do at the machine.
std::unique_ptr<Flow> thanks(const Session& session, const std::string& plate) {
    const Say say = session.say();
    return std::make_unique<MessageFlow>(
        LugState::held, say("report.held", {{"machine", plate}}),
        std::vector<std::string>{say("report.held-line"), say("report.tag-line")},
        [plate](Session& s) { return put_tag_on(s, plate); });
}

Result<Next> describe(Session& session, const std::string& plate, std::int64_t finding,
                      const Trouble& trouble, const std::string& by) {
    Fact fact;
    fact.kind = "finding-described";
    if (!by.empty()) fact.by = {by};
    fact.about = finding;
    fact.data = {{"machine", plate},
                 {"reading", std::string(trouble.id)},
                 {"hazard", std::string(name_of(trouble.hazard))}};
    std::vector<Fact> facts{std::move(fact)};
    if (trouble.hazard == Hazard::lp_leak) TRY(add_void_for_leak(session, plate, facts));
    TRY(session.book().enter(std::move(facts)));
    return Next::done(thanks(session, plate));
}

// Who it was is a courtesy to the reporter, never a condition.
Result<Next> ask_who(Session& session, const std::string& plate, std::int64_t finding,
                     const Trouble& trouble) {
    if (session.person()) return describe(session, plate, finding, trouble, session.person_id());
    const Say say = session.say();
    GridBody body;
    body.heading = say("report.who");
    body.remark = say("report.who-remark");
    body.tiles = {
        {"who:badge", say("report.who-badge"), say("report.who-badge-second"), "", {}, true, ""},
        {"who:none", say("report.who-none"), "", "", {}, true, ""}};
    return Next::push(std::make_unique<PickFlow>(
        "report/who", std::move(body),
        [plate, finding, trouble](Session& s, const std::string& id) -> Result<Next> {
            if (id == "who:none") return describe(s, plate, finding, trouble, "");
            return Next::push(std::make_unique<BadgeFlow>(
                s.say()("report.who"),
                [plate, finding, trouble](Session& inner, const Person& person) {
                    return describe(inner, plate, finding, trouble, person.id);
                }));
        }));
}

Result<Next> ask_what(Session& session, const std::string& plate, std::int64_t finding) {
    const Say say = session.say();
    GridBody body;
    body.heading = say("report.what", {{"machine", plate}});
    body.remark = say("report.already-held", {{"machine", plate}});
    for (const Trouble& trouble : kTroubles) {
        Tile tile;
        tile.id = std::string(kWhat) + std::string(trouble.id);
        tile.label = say("report.title-" + std::string(trouble.id));
        body.tiles.push_back(std::move(tile));
    }
    return Next::push(std::make_unique<PickFlow>(
        "report/what/" + plate, std::move(body),
        [plate, finding](Session& s, const std::string& id) -> Result<Next> {
            for (const Trouble& trouble : kTroubles) {
                if (id == std::string(kWhat) + std::string(trouble.id)) {
                    return ask_who(s, plate, finding, trouble);
                }
            }
            return Next::stay();
        },
        [plate](Session& s) -> Result<Next> { return Next::done(thanks(s, plate)); }));
}

// Holds the machine at once.
Result<Entry> hold_machine(Session& session, const std::string& plate, ReportKind kind) {
    const bool no_start = kind == ReportKind::no_start;
    Fact fact;
    fact.kind = "finding-entered";
    if (session.person()) fact.by = {session.person_id()};
    fact.data = {{"machine", plate},
                 {"point", no_start ? "no-start" : "report"},
                 {"reading", no_start ? "no-start" : "unspecified"},
                 {"outcome", "stop"},
                 {"hazard", std::string(name_of(no_start ? Hazard::lp_fuel : Hazard::none))},
                 {"source", no_start ? "no-start" : "report"}};
    std::vector<Fact> facts{std::move(fact)};
    TRY(add_tag(session, plate, facts));
    return TRY(session.book().enter(std::move(facts))).front();
}

Result<Next> report(Session& session, const std::string& plate, ReportKind kind) {
    const ReportGuard met =
        kind == ReportKind::no_start ? ReportGuard::no_start : ReportGuard::problem;
    const auto row = step(kReportTable, ReportState::choosing, ReportEvent::name,
                          [&](ReportGuard guard) { return guard == met; });
    if (!row) return Next::stay();
    const Entry entry = TRY(hold_machine(session, plate, kind));
    if (row->to == ReportState::asking) return ask_what(session, plate, entry.n);
    return Next::done(std::make_unique<NoStartFlow>(plate, entry.n));
}

}  // namespace

Result<Page> EmergencyFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("emergency");
    page.middle = say("bar.help");
    GridBody body;
    // The sheets open even where the records cannot be read.
    const auto alarms = standing_alarms(session.db());
    for (const AirAlarm& alarm : alarms ? alarms.value() : std::vector<AirAlarm>()) {
        body.tiles.push_back({std::string(kAlarm) + alarm.room,
                              say("alarm.tile", {{"room", session.room_name(alarm.room)}}), "",
                              "sheet-co", {}, true, ""});
    }
    const std::size_t alarm_tiles = body.tiles.size();
    std::vector<Sheet> sheets = session.pack().sheets;
    std::sort(sheets.begin(), sheets.end(),
              [](const Sheet& a, const Sheet& b) { return a.order < b.order; });
    for (const Sheet& sheet : sheets) {
        if (sheet.id == "no-start" || sheet.id == "symptoms") continue;
        Tile tile;
        tile.id = std::string(kSheet) + sheet.id;
        tile.label = say(sheet.title);
        tile.drawing = sheet.drawing;
        body.tiles.push_back(std::move(tile));
    }
    body.tiles.push_back(
        {"no-start", say("emergency.no-start"), "", "sheet-no-start", {}, true, ""});
    body.tiles.push_back(
        {"symptoms", say("symptoms.tile"), "", "sheet-symptoms", {}, true, ""});
    if (session.world().data_sheets != nullptr) body.tiles.push_back(data_sheets_tile(say));
    body.first = static_cast<int>(std::min(alarm_tiles + kKillFirst, body.tiles.size()));
    page.body = std::move(body);
    page.back = session.back_button();
    page.help = {};
    page.main = {"report", say("emergency.report"), say("emergency.report-second"), true, ""};
    return page;
}

Result<Next> EmergencyFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id == kDataSheets && session.world().data_sheets != nullptr) {
        return Next::push(std::make_unique<DataSheetsFlow>());
    }
    if (action.id == "report") return Next::push(report_flow(session, ReportKind::problem));
    if (action.id == "no-start") return Next::push(report_flow(session, ReportKind::no_start));
    if (action.id == "symptoms") return Next::push(choose_ill_room(session));
    if (action.id.starts_with(kAlarm)) {
        return Next::push(std::make_unique<AirAlarmFlow>(action.id.substr(kAlarm.size())));
    }
    if (action.id.starts_with(kSheet)) {
        return Next::push(std::make_unique<SheetFlow>(action.id.substr(kSheet.size())));
    }
    return Next::stay();
}

SheetBody sheet_body(const Say& say, const Site& site, const Sheet& sheet) {
    SheetBody body;
    const std::string& number = site.emergency_number;
    if (!number.empty()) body.call = say("sheet.emergency-number", {{"number", number}});
    body.title = say(sheet.title);
    body.first = say(sheet.first);
    if (sheet.eyewash && !site.eyewash.empty()) {
        body.act.push_back(say("data-sheets.eyewash", {{"place", say(site.eyewash)}}));
    }
    for (const Text& line : sheet.act) body.act.push_back(say(line));
    body.never_label = say("sheet.never");
    for (const Text& line : sheet.never) body.never.push_back(say(line));
    body.tell_label = say("sheet.tell");
    body.tell = say(sheet.tell);
    body.drawing = sheet.drawing;
    return body;
}

Result<Page> sheet_page(const Session& session, const std::string& id) {
    const Sheet* sheet = session.pack().sheet(id);
    if (sheet == nullptr) {
        return Error{ErrorKind::absent, "this sheet is not in the content", id, "tell the author"};
    }
    const Say say = session.say();
    Page page = session.blank("sheet/" + id);
    page.middle = say("bar.help");
    page.body = sheet_body(say, session.content().site, *sheet);
    page.back = session.back_button();
    page.help = {};
    return page;
}

Result<Page> SheetFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = TRY(sheet_page(session, sheet_));
    if (sheet_ == kSheetOfAlarm) {
        page.main = {"air-alarm", say("alarm.button"), say("alarm.button-second"), true, ""};
    } else {
        page.main = {"report", say("emergency.report"), say("emergency.report-second"), true, ""};
    }
    return page;
}

Result<Next> SheetFlow::act(Session& session, const Action& action) {
    if (action.id == "report") return Next::push(report_flow(session, ReportKind::problem));
    if (action.id == "air-alarm" && sheet_ == kSheetOfAlarm) {
        return Next::push(choose_alarm_room(session));
    }
    return Next::back();
}

std::unique_ptr<Flow> report_flow(const Session& session, ReportKind kind) {
    const Say say = session.say();
    GridBody body;
    const bool no_start = kind == ReportKind::no_start;
    body.heading = say(no_start ? "no-start.which" : "report.which");
    body.remark = say(no_start ? "no-start.remark" : "report.which-remark");
    const auto rows = machines(session.db());
    for (const MachineRow& row : rows.value_or({})) {
        const MachineClass* machine_class = session.pack().machine_class(row.machine_class);
        if (no_start && (machine_class == nullptr || !machine_class->has_engine)) continue;
        Tile tile;
        tile.id = std::string(kReportOn) + row.plate;
        tile.label = row.plate;
        if (machine_class != nullptr) tile.second = say(machine_class->short_name);
        body.tiles.push_back(std::move(tile));
    }
    return std::make_unique<PickFlow>(
        no_start ? "no-start/machine" : "report/machine", std::move(body),
        [kind](Session& s, const std::string& id) {
            return report(s, id.substr(kReportOn.size()), kind);
        });
}

}  // namespace holdpin
