#include "flows/cylinders.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "flows/desk.hpp"
#include "flows/pieces.hpp"
#include "records/works.hpp"
#include "rules/cylinders.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

constexpr std::string_view kCylinder = "cylinder:";
constexpr std::string_view kUnlisted = "unlisted:";
constexpr std::array kByHand{CylinderState::full, CylinderState::empty, CylinderState::set_aside};

std::string kg_text(double kg) { return fmt::format("{:.4g}\u00a0kg", kg); }

Json stamps_json(const std::vector<CylinderStamp>& stamps) {
    constexpr std::array kTests{"volumetric", "proof", "visual"};
    Json list = Json::array();
    for (const CylinderStamp& stamp : stamps) {
        list.push_back(year_month_text(stamp.month) + ":" +
                       kTests[static_cast<std::size_t>(stamp.test)]);
    }
    return list;
}

// A mark that cannot be read is refused like one that is overdue, and the refusal is entered.
Result<Next> refuse(Session& session, const std::string& serial, CylinderRefusal why) {
    Fact fact;
    fact.kind = "cylinder-refused";
    fact.by = {session.person_id()};
    fact.data = {{"serial", serial}, {"reason", std::string(name_of(why))}};
    TRY(session.book().enter(fact));
    const Say say = session.say();
    return Next::done(refusal(session, say("cylinder.refused", {{"serial", serial}}),
                              say("cylinder.refused-" + std::string(name_of(why)))));
}

// One at the gate is new; one that came off a machine stands in the store, and has its entry.
Result<CylinderRefusal> refusal_now(const Session& session, const Cylinder& offered) {
    const auto store = TRY(cylinders(session.db()));
    const CylinderPolicy& policy = session.content().site.cylinders;
    if (offered.entry != 0) return refusal_to_list(offered, store, policy);
    const std::size_t unlisted = TRY(unlisted_cylinders(session.db())).size();
    return refusal_of(offered, store, unlisted, policy, session.today());
}

Result<Next> take_in(Session& session, const Cylinder& offered) {
    const CylinderPolicy& policy = session.content().site.cylinders;
    const CylinderRefusal why = TRY(refusal_now(session, offered));
    if (why != CylinderRefusal::none) return refuse(session, offered.serial, why);
    const std::string due = year_month_text(TRY(due_of(offered, policy)));
    const Say say = session.say();
    SignedWork work;
    work.heading = say("cylinder.take-in");
    work.statement = say("cylinder.meaning", {{"serial", offered.serial}, {"due", due}});
    work.kind = "cylinder-received";
    work.meaning = "looked-it-over";
    work.data = {{"serial", offered.serial},
                 {"made", year_month_text(offered.made)},
                 {"stamps", stamps_json(offered.stamps)},
                 {"gas_kg", fmt::format("{:.6g}", offered.gas_kg)},
                 {"due", due}};
    if (offered.entry != 0) {
        work.about = offered.entry;
        work.data["state"] = std::string(name_of(offered.state));
        work.statement = say("cylinder.list-meaning", {{"serial", offered.serial}, {"due", due}});
    }
    return Next::push(sign_work(session, std::move(work)));
}

Result<Next> ask_gas(Session& session, Cylinder offered) {
    const Say say = session.say();
    return Next::push(std::make_unique<NumberFlow>(
        "cylinder/gas", NumberAsk{say("cylinder.gas"), say("cylinder.gas-look"), "kg"},
        [offered](Session& s, const std::string& typed) -> Result<Next> {
            Cylinder full = offered;
            full.gas_kg = TRY(parse_decimal(typed));
            return take_in(s, full);
        }));
}

// A year and month from the collar; what makes no sense is asked once more.
std::unique_ptr<Flow> month_flow(const Session& session, const char* key,
                                 std::function<Result<Next>(Session&, YearMonth)> then) {
    TextBody body;
    body.heading = session.say()(key);
    body.hint = session.say()("cylinder.month-hint");
    body.codes = true;
    body.most = 7;
    return std::make_unique<TextFlow>(
        "cylinder/month", std::move(body),
        [then = std::move(then)](Session& s, const std::string& text) -> Result<Next> {
            const auto month = parse_year_month(text);
            if (month.ok()) return then(s, month.value());
            return Next::push(
                refusal(s, s.say()("cylinder.month-unclear"), s.say()("cylinder.month-hint")));
        });
}

Result<Next> ask_stamp(Session& session, Cylinder offered) {
    const Say say = session.say();
    GridBody body;
    body.heading = say("cylinder.stamp");
    body.remark = say("cylinder.stamp-look");
    constexpr std::array kTests{"none", "volumetric", "proof", "visual", "unreadable"};
    for (const char* test : kTests) {
        body.tiles.push_back({test, say("cylinder.stamp-" + std::string(test)), "",
                              std::string(test) == "unreadable" ? "cannot-see" : "", {}, true, ""});
    }
    return Next::push(std::make_unique<PickFlow>(
        "cylinder/stamp", std::move(body),
        [offered](Session& s, const std::string& id) -> Result<Next> {
            if (id == "none") return ask_gas(s, offered);
            if (id == "unreadable") return refuse(s, offered.serial, CylinderRefusal::unreadable);
            const CylinderTest test = TRY(parse_cylinder_test(id));
            return Next::push(month_flow(
                s, "cylinder.stamp-month",
                [offered, test](Session& t, YearMonth month) -> Result<Next> {
                    Cylinder with = offered;
                    with.stamps.push_back({month, test});
                    return ask_gas(t, with);
                }));
        }));
}

Result<Next> begin(const Session& session, Cylinder offered) {
    TextBody body;
    body.heading = session.say()("cylinder.serial");
    body.hint = session.say()("cylinder.serial-hint");
    body.codes = true;
    body.most = 20;
    return Next::push(std::make_unique<TextFlow>(
        "cylinder/serial", std::move(body),
        [offered](Session& s, const std::string& serial) -> Result<Next> {
            Cylinder named = offered;
            named.serial = serial;
            return Next::push(month_flow(s, "cylinder.made",
                                         [named](Session& t, YearMonth made) -> Result<Next> {
                                             Cylinder dated = named;
                                             dated.made = made;
                                             return ask_stamp(t, dated);
                                         }));
        }));
}

// Nothing, once it was given back.
Result<std::optional<Cylinder>> cylinder_with(const Session& session, const std::string& serial) {
    for (Cylinder& cylinder : TRY(cylinders(session.db()))) {
        if (cylinder.serial == serial) return std::optional(std::move(cylinder));
    }
    return std::optional<Cylinder>();
}

// Empty: whoever is signed on may change cylinders or answers for machines.
std::string why_not_moved(const Session& session) {
    const Person* person = session.person() ? &*session.person() : nullptr;
    const auto permits = [&](const Work& work) {
        const bool changes =
            std::any_of(work.steps.begin(), work.steps.end(),
                        [](const WorkStep& step) { return step.ask == WorkAsk::cylinder; });
        const auto& has = person->endorsements;
        return changes && std::find(has.begin(), has.end(), work.endorsement) != has.end();
    };
    const auto& works = session.pack().works;
    const bool may = person != nullptr && (session.may(Right::return_to_service) ||
                                           std::any_of(works.begin(), works.end(), permits));
    return may ? "" : session.say()("cylinder.no-permit");
}

Result<Next> give_back_unlisted(const Session& session, const UnlistedCylinder& one) {
    const Say say = session.say();
    SignedWork work;
    work.heading = say("cylinder.give-back");
    work.statement = say("cylinder.unlisted-meaning", {{"machine", one.machine}});
    work.kind = "cylinder-given-back";
    work.meaning = "moved-the-cylinder";
    work.data = {{"machine", one.machine}};
    work.about = one.entry;
    return Next::push(sign_work(session, std::move(work)));
}

// `state` is empty for one that goes back to the supplier.
Result<Next> sign_move(const Session& session, const Cylinder& cylinder, const std::string& kind,
                       const std::string& state) {
    const Say say = session.say();
    const std::string to = say(state.empty() ? "cylinder.give-back" : "cylinder.mark-" + state);
    SignedWork work;
    work.heading = cylinder.serial;
    work.statement = say("cylinder.set-meaning", {{"serial", cylinder.serial}, {"what", to}});
    work.kind = kind;
    work.meaning = "moved-the-cylinder";
    work.data = {{"serial", cylinder.serial}};
    if (!state.empty()) work.data["state"] = state;
    return Next::push(sign_work(session, std::move(work)));
}

// What came off a machine is listed from its collar, or goes back as it is.
Result<Next> open_unlisted(const Session& session, const std::string& number) {
    for (const UnlistedCylinder& one : TRY(unlisted_cylinders(session.db()))) {
        if (std::to_string(one.entry) != number) continue;
        const Say say = session.say();
        const std::string why = why_not_moved(session);
        GridBody body;
        body.heading = say("cylinder.unlisted", {{"machine", one.machine}});
        body.remark = say("cylinder.unlisted-remark");
        body.tiles = {{"list", say("cylinder.list"), say("cylinder.take-in-second"), "", {}, true,
                       ""},
                      {"give-back", say("cylinder.give-back"), say("cylinder.give-back-second"), "",
                       {}, why.empty(), why}};
        return Next::push(std::make_unique<PickFlow>(
            "cylinder/unlisted", std::move(body),
            [one](Session& s, const std::string& id) -> Result<Next> {
                Cylinder found;
                found.entry = one.entry;
                found.state = cylinder_state_named(one.state).value_or(CylinderState::set_aside);
                if (id == "list") return begin(s, found);
                if (!why_not_moved(s).empty()) return Next::stay();
                return give_back_unlisted(s, one);
            }));
    }
    return Next::stay();
}

std::string due_line(const Session& session, const Cylinder& cylinder) {
    const auto due = due_of(cylinder, session.content().site.cylinders);
    return session.say()("cylinder.due",
                         {{"due", due.ok() ? year_month_text(due.value()) : "?"},
                          {"gas", kg_text(cylinder.gas_kg)}});
}

}  // namespace

Result<Page> CylindersFlow::page(const Session& session) const {
    const Say say = session.say();
    const auto store = TRY(cylinders(session.db()));
    const auto unlisted = TRY(unlisted_cylinders(session.db()));
    Page page = session.blank("desk/cylinders");
    page.middle = say("desk.cylinders");
    ListBody body;
    body.desk = true;
    body.heading = say("cylinder.heading",
                       {{"kg", kg_text(counted_kg(store, unlisted.size()))},
                        {"limit", kg_text(session.content().site.cylinders.limit_kg)}});
    body.remark = say("cylinder.remark");
    for (const UnlistedCylinder& one : unlisted) {
        Row row;
        row.id = std::string(kUnlisted) + std::to_string(one.entry);
        row.label = say("cylinder.unlisted", {{"machine", one.machine}});
        row.second = session.when(one.at_ms) + " · " + say("cylinder.state-" + one.state);
        row.word = say("cylinder.not-listed");
        row.mark = LugState::due;
        body.rows.push_back(std::move(row));
    }
    for (const Cylinder& cylinder : store) {
        Row row;
        row.id = std::string(kCylinder) + cylinder.serial;
        row.label = cylinder.serial;
        row.second = due_line(session, cylinder);
        row.word = say("cylinder.state-" + std::string(name_of(cylinder.state)));
        row.mark = cylinder.state == CylinderState::set_aside ? LugState::held : LugState::open;
        body.rows.push_back(std::move(row));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    page.main = {"take-in", say("cylinder.take-in"), say("cylinder.take-in-second"), true, ""};
    return page;
}

Result<Next> CylindersFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id == "take-in") return begin(session, Cylinder());
    if (action.id.starts_with(kUnlisted)) {
        return open_unlisted(session, action.id.substr(kUnlisted.size()));
    }
    if (!action.id.starts_with(kCylinder)) return Next::stay();
    return Next::push(std::make_unique<CylinderFlow>(action.id.substr(kCylinder.size())));
}

Result<Page> CylinderFlow::page(const Session& session) const {
    const Say say = session.say();
    const auto cylinder = TRY(cylinder_with(session, serial_));
    Page page = session.blank("desk/cylinder/" + serial_);
    page.middle = serial_;
    page.back = session.back_button();
    ListBody body;
    body.desk = true;
    if (!cylinder) {
        body.heading = say("cylinder.gone", {{"serial", serial_}});
        page.body = std::move(body);
        return page;
    }
    body.heading =
        serial_ + " · " + say("cylinder.state-" + std::string(name_of(cylinder->state)));
    body.remark = due_line(session, *cylinder);
    const std::string why = why_not_moved(session);
    for (const CylinderState state : kByHand) {
        if (!may_be_set(cylinder->state, state)) continue;
        const std::string name(name_of(state));
        body.rows.push_back(
            work_row(name, say("cylinder.mark-" + name), say("cylinder.mark-second"), why));
    }
    if (may_be_given_back(cylinder->state)) {
        body.rows.push_back(work_row("give-back", say("cylinder.give-back"),
                                     say("cylinder.give-back-second"), why));
    } else {
        body.remark += ". " + say("cylinder.on-machine-remark");
    }
    page.body = std::move(body);
    return page;
}

Result<Next> CylinderFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    const auto cylinder = TRY(cylinder_with(session, serial_));
    if (!cylinder || !why_not_moved(session).empty()) return Next::stay();
    if (action.id == "give-back" && may_be_given_back(cylinder->state)) {
        return sign_move(session, *cylinder, "cylinder-given-back", "");
    }
    const auto state = cylinder_state_named(action.id);
    if (!state || !may_be_set(cylinder->state, *state)) return Next::stay();
    return sign_move(session, *cylinder, "cylinder-set", action.id);
}

}  // namespace holdpin
