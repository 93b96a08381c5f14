#include "flows/findings.hpp"

#include <array>
#include <charconv>

#include "flows/about_me.hpp"
#include "flows/desk.hpp"
#include "flows/no_start.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"
#include "flows/tags.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kFinding = "finding:";

bool guard_holds(FindingGuard guard, Outcome outcome) {
    switch (guard) {
        case FindingGuard::always: return true;
        case FindingGuard::limit_only: return outcome == Outcome::limit;
        case FindingGuard::note_only: return outcome == Outcome::note;
    }
    return false;
}

std::string stage_word(const Session& session, const FindingRow& row) {
    const Say say = session.say();
    switch (stage_of(row)) {
        case FindingStage::open: break;
        case FindingStage::repaired: return say("finding.repaired");
        case FindingStage::rechecked: return say("finding.rechecked");
        case FindingStage::closed: return say("finding.closed");
    }
    if (row.finding.allowed && session.now() < row.finding.allowed_until_ms) {
        return say("finding.allowed", {{"until", session.clock(row.finding.allowed_until_ms)}});
    }
    return say("finding." + std::string(name_of(row.finding.outcome)));
}

LugState mark_of(const FindingRow& row) {
    return row.finding.outcome == Outcome::stop ? LugState::held : LugState::due;
}

Row fact_row(std::string label, std::string second) {
    Row row;
    row.label = std::move(label);
    row.second = std::move(second);
    return row;
}

std::string text_of(const Session& session, const std::string& hash) {
    if (hash.empty()) return "";
    const auto text = private_text(session.db(), hash);
    return text.ok() ? text.value().value_or("") : "";
}

// The four statements without which no repair is entered (B-10 of the requirements).
constexpr std::array<std::string_view, 4> kRepairTicks{"place", "isolated", "parts", "unaltered"};

TickList repair_ticks(const Session& session) {
    const Say say = session.say();
    TickList list;
    list.page_id = "desk/repair";
    list.heading = say("repair.ticks");
    list.main_label = say("repair.sign");
    list.main_second = say("pin.second");
    list.all = true;
    list.rows = rows_to_tick(say, "repair.tick-", kRepairTicks);
    return list;
}

Result<FindingRow> row_of(const Session& session, std::int64_t entry) {
    const auto row = TRY(finding_row(session.db(), entry));
    if (row) return *row;
    return Error{ErrorKind::absent, "there is no such finding", std::to_string(entry), ""};
}

// What was begun is asked for once more when it is signed: a step that was taken meanwhile is not
// taken twice.
std::unique_ptr<Flow> sign_step(const Session& session, FindingEvent event, SignedWork work) {
    std::string heading = work.heading;
    std::string statement = work.statement;
    return std::make_unique<SignFlow>(
        *session.person(), std::move(heading), std::move(statement),
        [event, work = std::move(work)](Session& s) -> Result<Next> {
            if (!may_follow(TRY(row_of(s, work.about)), event)) return Next::done();
            TRY(enter_work(s, s.person_id(), work));
            return Next::done();
        });
}

Result<Next> repair(Session& session, const FindingRow& row) {
    TextBody body;
    body.heading = session.say()("repair.what");
    body.hint = session.say()("repair.what-hint");
    return Next::push(std::make_unique<TextFlow>(
        "desk/repair-text", std::move(body),
        [row](Session& s, const std::string& text) -> Result<Next> {
            return Next::push(std::make_unique<TickFlow>(
                repair_ticks(s),
                [row, text](Session& inner,
                            const std::vector<std::string>& ticked) -> Result<Next> {
                    const Say say = inner.say();
                    SignedWork work{say("repair.sign"),
                                    say("repair.meaning", {{"machine", row.machine}}),
                                    "repair-stated",
                                    "repaired",
                                    {{"machine", row.machine},
                                     {"findings", std::vector<std::int64_t>{row.finding.entry}},
                                     {"stated", ticked}},
                                    row.finding.entry,
                                    text,
                                    inner.person_id()};
                    return Next::push(sign_step(inner, FindingEvent::repair, std::move(work)));
                }));
        }));
}

Result<Next> recheck_signed(Session& session, const FindingRow& row, const std::string& reading,
                            bool fine) {
    const Say say = session.say();
    SignedWork work{say("recheck.sign"), say("recheck.meaning", {{"machine", row.machine}}),
                    "recheck-done", "looked-again",
                    {{"machine", row.machine},
                     {"findings", std::vector<std::int64_t>{row.finding.entry}},
                     {"reading", reading},
                     {"fine", fine}},
                    row.finding.entry, "", ""};
    const FindingEvent event = fine ? FindingEvent::recheck_fine : FindingEvent::recheck_bad;
    return Next::push(sign_step(session, event, std::move(work)));
}

// The affected point is read again, in the words of the round; a report is tried out.
Result<Next> recheck(Session& session, const FindingRow& row) {
    const Say say = session.say();
    const Point* point = point_of(session, row.machine, row.finding.point);
    GridBody body;
    body.heading = point == nullptr ? say("recheck.try") : say(point->question);
    body.remark = say("recheck.remark");
    std::vector<std::pair<std::string, bool>> outcomes;
    if (point == nullptr || point->readings.empty()) {
        body.tiles = {{"fine", say("recheck.fine"), "", "", {}, true, ""},
                      {"not-fine", say("recheck.not-fine"), "", "", {}, true, ""},
                      {"cannot-tell", say("recheck.cannot-tell"), "", "cannot-see", {}, true, ""}};
        outcomes = {{"fine", true}, {"not-fine", false}, {"cannot-tell", false}};
    } else {
        for (const Reading& reading : point->readings) {
            body.tiles.push_back(
                {reading.id, say(reading.label), "", reading.drawing, {}, true, ""});
            outcomes.emplace_back(reading.id, reading.outcome == Outcome::fine);
        }
    }
    return Next::push(std::make_unique<PickFlow>(
        "desk/recheck", std::move(body),
        [row, outcomes](Session& s, const std::string& id) -> Result<Next> {
            for (const auto& [reading, fine] : outcomes) {
                if (reading == id) return recheck_signed(s, row, reading, fine);
            }
            return Next::stay();
        }));
}

Result<Next> sign_return(Session& session, const FindingRow& row, const std::string& tag) {
    const Say say = session.say();
    SignedWork work{say("return.sign"), say("return.meaning", {{"machine", row.machine}}),
                    "returned-to-service", "returned-to-service",
                    {{"machine", row.machine},
                     {"findings", std::vector<std::int64_t>{row.finding.entry}}},
                    row.finding.entry, "", ""};
    if (!tag.empty()) work.data["tag"] = tag;
    return Next::push(sign_step(session, FindingEvent::give_back, std::move(work)));
}

// With the last stop finding the tag comes off, and that is said before it is signed.
Result<Next> return_to_service(Session& session, const FindingRow& row) {
    const std::string tag =
        TRY(tag_to_take_off(session, row.machine, row.finding.entry));
    if (tag.empty()) return sign_return(session, row, "");
    const Say say = session.say();
    GridBody body;
    body.heading = say("tag.off", {{"machine", row.machine}, {"code", tag}});
    body.remark = say("tag.off-remark");
    body.tiles = {{"tag-off", say("tag.is-off"), "", "tag-none", {}, true, ""}};
    return Next::push(std::make_unique<PickFlow>(
        "desk/tag-off", std::move(body),
        [row, tag](Session& s, const std::string&) { return sign_return(s, row, tag); }));
}

Result<Next> allow(Session& session, const FindingRow& row) {
    TextBody body;
    body.heading = session.say()("allow.limits");
    body.hint = session.say()("allow.limits-hint");
    return Next::push(std::make_unique<TextFlow>(
        "desk/limits", std::move(body),
        [row](Session& s, const std::string& text) -> Result<Next> {
            const Say say = s.say();
            const std::int64_t until = s.work_end_ms();
            SignedWork work{
                say("allow.sign"),
                say("allow.meaning", {{"machine", row.machine}, {"until", s.clock(until)}}),
                "limit-decided",
                "allowed-within-limits",
                {{"machine", row.machine}, {"allowed", true}, {"until_ms", until}},
                row.finding.entry,
                text,
                s.person_id()};
            return Next::push(sign_step(s, FindingEvent::allow, std::move(work)));
        }));
}

struct Offer {
    const char* id;
    FindingEvent event;
    Right right;
};
constexpr std::array kOffers{
    Offer{"allow", FindingEvent::allow, Right::decide_limit},
    Offer{"repair", FindingEvent::repair, Right::repair},
    Offer{"recheck", FindingEvent::recheck_fine, Right::return_to_service},
    Offer{"return", FindingEvent::give_back, Right::return_to_service},
};

Result<std::string> why_not_now(const Session& session, const FindingRow& row, const Offer& offer) {
    const Say say = session.say();
    if (!may_follow(row, offer.event)) return say("finding.not-now-" + std::string(offer.id));
    const MachineClass* machine_class = class_of(session, row.machine);
    if (machine_class == nullptr) return say("refused.no-right");
    const bool returns = offer.event == FindingEvent::give_back;
    if (returns && TRY(is_hopper_up(session.db(), row.machine))) return say("finding.hopper-up");
    return why_not(session, offer.right, *machine_class, row.finding.hazard);
}

}  // namespace

FindingStage stage_of(const FindingRow& row) {
    if (!row.open) return FindingStage::closed;
    if (row.finding.rechecked != 0) return FindingStage::rechecked;
    return row.finding.repaired != 0 ? FindingStage::repaired : FindingStage::open;
}

bool may_follow(const FindingRow& row, FindingEvent event) {
    return step(kFindingTable, stage_of(row), event, [&](FindingGuard guard) {
               return guard_holds(guard, row.finding.outcome);
           }).has_value();
}

Result<Page> FindingsFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("desk/findings");
    page.middle = say("desk.findings");
    ListBody body;
    const auto rows = TRY(open_findings(session.db()));
    body.heading = say("findings.heading", {{"count", std::to_string(rows.size())}});
    if (rows.empty()) body.remark = say("findings.none");
    body.desk = true;
    for (const FindingRow& one : rows) {
        Row row;
        row.id = std::string(kFinding) + std::to_string(one.finding.entry);
        row.label = one.machine + " · " + finding_title(session, one.machine, one.finding);
        row.second = session.when(one.finding.at_ms) + " · " + session.name(one.finding.by);
        row.word = stage_word(session, one);
        row.mark = mark_of(one);
        body.rows.push_back(std::move(row));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> FindingsFlow::act(Session&, const Action& action) {
    if (action.id == "back") return Next::back();
    if (!action.id.starts_with(kFinding)) return Next::stay();
    const std::string number = action.id.substr(kFinding.size());
    std::int64_t entry = 0;
    std::from_chars(number.data(), number.data() + number.size(), entry);
    return Next::push(std::make_unique<FindingFlow>(entry));
}

Result<Page> FindingFlow::page(const Session& session) const {
    const Say say = session.say();
    const FindingRow one = TRY(row_of(session, entry_));
    Page page = session.blank("desk/finding/" + std::to_string(entry_));
    page.middle = one.machine + " · " + stage_word(session, one);
    ListBody body;
    body.desk = true;
    body.heading = finding_title(session, one.machine, one.finding);
    body.remark = finding_why(session, one.machine, one.finding);
    body.rows.push_back(fact_row(say("finding.seen"), session.when(one.finding.at_ms) + " · " +
                                                          session.name(one.finding.by)));
    body.rows.push_back(fact_row(say("finding.kind"), say.hazard(one.finding.hazard)));
    const std::string text = text_of(session, one.finding.text_hash);
    if (!text.empty()) body.rows.push_back(fact_row(say("finding.limits"), text));
    for (Row& row : TRY(securing_rows(session, one.finding))) body.rows.push_back(std::move(row));
    for (Row& row : TRY(disagreement_rows(session, entry_))) body.rows.push_back(std::move(row));
    for (const Offer& offer : kOffers) {
        if (offer.event == FindingEvent::allow && one.finding.outcome != Outcome::limit) continue;
        const std::string name = "finding.do-" + std::string(offer.id);
        body.rows.push_back(work_row(offer.id, say(name), say(name + "-second"),
                                     TRY(why_not_now(session, one, offer))));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> FindingFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    const FindingRow row = TRY(row_of(session, entry_));
    for (const Offer& offer : kOffers) {
        if (action.id != offer.id) continue;
        if (!TRY(why_not_now(session, row, offer)).empty()) return Next::stay();
        switch (offer.event) {
            case FindingEvent::allow: return allow(session, row);
            case FindingEvent::repair: return repair(session, row);
            case FindingEvent::recheck_fine:
            case FindingEvent::recheck_bad: return recheck(session, row);
            case FindingEvent::give_back: return return_to_service(session, row);
        }
    }
    return Next::stay();
}

}  // namespace holdpin
