#include "flows/fleet_desk.hpp"

#include <fmt/format.h>

#include <array>

#include "flows/desk.hpp"
#include "flows/lockout.hpp"
#include "flows/lockout_desk.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"
#include "flows/tags.hpp"
#include "rules/overrides.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kMachine = "machine:";
constexpr std::string_view kOverride = "override:";
constexpr int kYearlyMonths = 12;  // common practice, no source; the next date can be adopted

// What holds the machine whoever asks: the desk looks after machines, it does not take them.
Result<MachineFacts> machine_alone(const Session& session, const std::string& plate) {
    MachineFacts facts = TRY(facts_of(session, plate));
    facts.holds = machine_holds(facts.snapshot);
    return facts;
}

std::string service_line(const Session& session, const MachineState& machine) {
    if (machine.service_every_tenths == 0) return session.say()("fleet.no-service");
    const std::int64_t due = machine.service_done_tenths + machine.service_every_tenths;
    return session.say()("fleet.service", {{"hours", hours_text(machine.hours_tenths)},
                                           {"due", hours_text(due)}});
}

std::string inspection_line(const Session& session, const MachineState& machine) {
    if (!machine.inspection_due) return session.say()("fleet.no-inspection");
    return session.say()("fleet.inspection", {{"date", session.date(*machine.inspection_due)}});
}

std::string tailpipe_line(const Session& session, const std::string& plate) {
    const auto test = tailpipe_of(session.db(), plate);
    if (!test.ok() || !test.value()) return session.say()("fleet.no-tailpipe");
    return session.say()("fleet.tailpipe", {{"value", fmt::format("{:.4g}", test.value()->co_lmin)},
                                            {"date", session.date(test.value()->on)}});
}

Result<Next> service_done(Session& session, const MachineState& machine) {
    const Say say = session.say();
    SignedWork work{say("fleet.do-service"),
                    say("fleet.service-meaning", {{"machine", machine.plate}}),
                    "service-done",
                    "serviced",
                    {{"machine", machine.plate}, {"hours", tenths_text(machine.hours_tenths)}},
                    0,
                    "",
                    ""};
    return Next::push(sign_work(session, std::move(work)));
}

Result<Next> sign_inspection(Session& session, const std::string& plate,
                             const std::vector<std::string>& stated) {
    const Say say = session.say();
    const std::string next = iso_date(add_months(session.today(), kYearlyMonths));
    SignedWork work{say("fleet.do-inspection"),
                    say("fleet.inspection-meaning", {{"machine", plate}}),
                    "inspection-done", "inspected",
                    {{"machine", plate}, {"next_due", next}}, 0, "", ""};
    if (!stated.empty()) work.data["stated"] = stated;
    return Next::push(sign_work(session, std::move(work)));
}

// What an LP engine that runs indoors must have (WAC 296-863-20035; 1910.110(e)(5)(iv)(a), read in
// a secondary copy).
constexpr std::array kLpFacts{"lp-shuts-off", "lp-two-at-most", "lp-no-venting-gauge"};

Result<Next> inspection_done(Session& session, const MachineState& machine) {
    const MachineClass* machine_class = class_of(session, machine.plate);
    if (machine_class == nullptr || !machine_class->has_engine) {
        return sign_inspection(session, machine.plate, {});
    }
    const Say say = session.say();
    TickList list;
    list.page_id = "desk/inspection";
    list.heading = say("fleet.inspect-lp", {{"machine", machine.plate}});
    list.remark = say("fleet.inspect-lp-remark");
    list.main_label = say("bar.go-on");
    list.all = true;
    list.rows = rows_to_tick(say, "fleet.inspect-", kLpFacts);
    return Next::push(std::make_unique<TickFlow>(
        std::move(list),
        [plate = machine.plate](Session& s, const std::vector<std::string>& stated) {
            return sign_inspection(s, plate, stated);
        }));
}

// A lock that was placed outside a guided lockout: its owner takes it off, nobody else
// (1910.147(e)(3), read in a secondary copy).
Result<Next> unlock(Session& session, const MachineState& machine) {
    const Say say = session.say();
    SignedWork work;
    work.heading = say("fleet.do-unlock");
    work.statement = say("fleet.unlock-meaning", {{"machine", machine.plate}});
    work.kind = "lockout-removed";
    work.meaning = "my-lock-is-off";
    work.about = machine.locked_entry;
    work.data = {{"machine", machine.plate}};
    return Next::push(sign_work(session, std::move(work)));
}

bool has_bare_lock(const MachineFacts& facts) {
    return !facts.locked_out && !facts.snapshot.machine.locked_by.empty();
}

std::string why_no_unlock(const Session& session, const MachineState& machine) {
    const Say say = session.say();
    if (!session.may(Right::place_lockout)) return say("refused.no-right");
    if (machine.locked_by == session.person_id()) return "";
    return say("fleet.not-your-lock", {{"name", session.name(machine.locked_by)}});
}

// The analyser's reading at the tailpipe, as litres of carbon monoxide a minute at work.
Result<Next> tailpipe(Session& session, const std::string& plate) {
    const Say say = session.say();
    return Next::push(std::make_unique<NumberFlow>(
        "desk/tailpipe", NumberAsk{say("fleet.tailpipe-ask"), say("fleet.tailpipe-look"), "L/min"},
        [plate](Session& s, const std::string& typed) -> Result<Next> {
            const Say words = s.say();
            SignedWork work;
            work.heading = words("fleet.do-tailpipe");
            work.statement =
                words("fleet.tailpipe-meaning", {{"machine", plate}, {"value", typed}});
            work.kind = "tailpipe-tested";
            work.meaning = "measured-the-exhaust";
            work.data = {{"machine", plate}, {"co_lmin", typed}, {"on", iso_date(s.today())}};
            return Next::push(sign_work(s, std::move(work)));
        }));
}

struct OverrideWork {
    std::string plate;
    HoldCode code;
    std::string reason;
};

std::string refusal_text(const Session& session, OverrideRefusal refusal) {
    constexpr const char* kKeys[] = {"",
                                     "override.never",
                                     "override.same-person",
                                     "override.not-entitled",
                                     "override.no-reason",
                                     "override.no-end"};
    return session.say()(kKeys[static_cast<std::size_t>(refusal)]);
}

Result<OverrideRefusal> judge_override(const Session& session, const OverrideWork& work,
                                       const Person& second, std::int64_t until_ms) {
    const MachineClass* machine_class = class_of(session, work.plate);
    const HoldRule* rule = session.pack().hold(name_of(work.code));
    if (machine_class == nullptr || rule == nullptr) return OverrideRefusal::never;
    OverrideRequest request;
    request.code = work.code;
    request.first = session.person_id();
    request.second = second.id;
    request.first_entitled =
        TRY(why_not(session, Right::override_hold, *machine_class)).empty();
    request.second_entitled =
        TRY(why_not(session, second, Right::override_hold, *machine_class)).empty();
    request.reason = work.reason;
    request.now_ms = session.now();
    request.until_ms = until_ms;
    return refusal_of(request, *rule, session.content().site.policy);
}

std::int64_t override_end(const Session& session) {
    const std::int64_t latest =
        session.now() + session.content().site.policy.override_hours_max * 3'600'000LL;
    const auto shift = session.work_shift();
    return shift ? std::min(shift->end_ms, latest) : latest;
}

Result<Next> enter_override(Session& session, const OverrideWork& work, const Person& second) {
    SignedWork signed_work;
    signed_work.kind = "override-placed";
    signed_work.meaning = "override";
    signed_work.data = {{"machine", work.plate},
                        {"code", std::string(name_of(work.code))},
                        {"until_ms", override_end(session)}};
    signed_work.second = second.id;
    signed_work.private_text = work.reason;
    signed_work.about_person = session.person_id();
    TRY(enter_work(session, session.person_id(), signed_work));
    return Next::done();
}

Result<Next> second_signature(Session& session, const OverrideWork& work, const Person& second) {
    const auto refused =
        TRY(judge_override(session, work, second, override_end(session)));
    const Say say = session.say();
    if (refused != OverrideRefusal::none) {
        return Next::push(
            refusal(session, say("override.refused"), refusal_text(session, refused)));
    }
    const Args args{{"machine", work.plate}, {"until", session.clock(override_end(session))}};
    return Next::push(std::make_unique<SignFlow>(
        *session.person(), say("override.sign"), say("override.meaning", args),
        [work, second, args](Session& s) -> Result<Next> {
            return Next::push(std::make_unique<SignFlow>(
                second, s.say()("override.sign"), s.say()("override.meaning", args),
                [work, second](Session& t) { return enter_override(t, work, second); }));
        }));
}

Result<Next> begin_override(Session& session, const std::string& plate, HoldCode code) {
    TextBody body;
    body.heading = session.say()("override.reason");
    body.hint = session.say()("override.reason-hint");
    return Next::push(std::make_unique<TextFlow>(
        "desk/override", std::move(body),
        [plate, code](Session& s, const std::string& reason) -> Result<Next> {
            return Next::push(std::make_unique<BadgeFlow>(
                s.say()("override.second"),
                [plate, code, reason](Session& t, const Person& second) {
                    return second_signature(t, {plate, code, reason}, second);
                }));
        }));
}

// One row for each hold that stands; where the content allows it, it can be overridden.
Result<std::vector<Row>> hold_rows(const Session& session, const MachineFacts& facts,
                                   const MachineClass& machine_class) {
    std::vector<Row> rows;
    for (const Hold& hold : facts.holds) {
        const HoldCard card = hold_card(session, facts.snapshot, hold);
        const HoldRule* rule = session.pack().hold(name_of(hold.code));
        Row row;
        row.label = card.title;
        row.second = card.lift;
        row.mark = card.self ? LugState::due : LugState::held;
        if (rule != nullptr && rule->overridable && can_ever_override(hold.code)) {
            row.id = std::string(kOverride) + std::string(name_of(hold.code));
            row.word = session.say()("override.word");
            row.why_not = TRY(why_not(session, Right::override_hold, machine_class));
            row.enabled = row.why_not.empty();
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace

Result<Page> FleetDeskFlow::page(const Session& session) const {
    Page page = session.blank("desk/machines");
    page.middle = session.say()("desk.machines");
    ListBody body;
    body.desk = true;
    body.heading = session.say()("fleet.heading");
    for (const MachineRow& machine : TRY(machines(session.db()))) {
        const MachineFacts facts = TRY(machine_alone(session, machine.plate));
        const PlateView plate = plate_view(session, facts);
        Row row;
        row.id = std::string(kMachine) + machine.plate;
        row.label = machine.plate + " · " + plate.class_name;
        row.second = service_line(session, facts.snapshot.machine);
        row.word = plate.state;
        row.mark = plate.is_held ? LugState::held : LugState::open;
        body.rows.push_back(std::move(row));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> FleetDeskFlow::act(Session&, const Action& action) {
    if (action.id == "back") return Next::back();
    if (!action.id.starts_with(kMachine)) return Next::stay();
    return Next::push(std::make_unique<MachineDeskFlow>(action.id.substr(kMachine.size())));
}

Result<Page> MachineDeskFlow::page(const Session& session) const {
    const Say say = session.say();
    const MachineFacts facts = TRY(machine_alone(session, plate_));
    const MachineState& machine = facts.snapshot.machine;
    Page page = session.blank("desk/machine/" + plate_);
    page.middle = plate_;
    ListBody body;
    body.desk = true;
    body.heading = plate_ + " · " + plate_view(session, facts).state;
    body.remark = service_line(session, machine) + " · " + inspection_line(session, machine);
    const std::string no_repair =
        session.may(Right::repair) ? std::string() : say("refused.no-right");
    if (machine.service_every_tenths > 0) {
        body.rows.push_back(work_row("service", say("fleet.do-service"),
                                     say("fleet.do-service-second"), no_repair));
    }
    body.rows.push_back(work_row("inspection", say("fleet.do-inspection"),
                                 say("fleet.do-inspection-second"), no_repair));
    if (facts.snapshot.machine_class != nullptr && facts.snapshot.machine_class->engine) {
        body.rows.push_back(work_row("tailpipe", say("fleet.do-tailpipe"),
                                     tailpipe_line(session, plate_), no_repair));
    }
    if (has_bare_lock(facts)) {
        body.rows.push_back(work_row("unlock", say("fleet.do-unlock"), say("fleet.lock-second"),
                                     why_no_unlock(session, machine)));
    }
    for (Row& row : TRY(tag_rows(session, plate_))) body.rows.push_back(std::move(row));
    if (facts.snapshot.machine_class != nullptr) {
        body.rows.push_back(work_row(
            "lockout", say(facts.locked_out ? "machine.lockout" : "machine.lock-out"),
            say("machine.lock-out-second"), ""));
        for (Row& row : TRY(procedure_rows(session, *facts.snapshot.machine_class))) {
            body.rows.push_back(std::move(row));
        }
        for (Row& row : TRY(hold_rows(session, facts, *facts.snapshot.machine_class))) {
            body.rows.push_back(std::move(row));
        }
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> MachineDeskFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    const MachineFacts facts = TRY(machine_alone(session, plate_));
    const MachineState& machine = facts.snapshot.machine;
    const MachineClass* machine_class = facts.snapshot.machine_class;
    if (action.id == "service" && session.may(Right::repair)) return service_done(session, machine);
    if (action.id == "inspection" && session.may(Right::repair)) {
        return inspection_done(session, machine);
    }
    if (action.id == "tailpipe" && session.may(Right::repair)) return tailpipe(session, plate_);
    if (action.id == "unlock" && has_bare_lock(facts) && why_no_unlock(session, machine).empty()) {
        return unlock(session, machine);
    }
    if (action.id == kTagAgain) return open_tag_again(session, plate_);
    if (action.id == "lockout" && machine_class != nullptr) {
        return Next::push(std::make_unique<LockoutFlow>(plate_));
    }
    if (action.id == "inspect-procedure" && machine_class != nullptr) {
        return inspect_procedure(session, plate_, *machine_class);
    }
    if (action.id == "assess-arm" && machine_class != nullptr) {
        return assess_arm_alone(session, *machine_class);
    }
    if (action.id.starts_with(kOverride)) {
        const auto code = hold_named(action.id.substr(kOverride.size()));
        if (code) return begin_override(session, plate_, *code);
    }
    return Next::stay();
}

}  // namespace holdpin
