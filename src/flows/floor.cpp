#include "flows/floor.hpp"

#include "flows/desk.hpp"
#include "flows/lockout.hpp"
#include "flows/lockout_alarm.hpp"
#include "flows/machine.hpp"
#include "flows/people.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"
#include "flows/round.hpp"
#include "flows/shift_book.hpp"
#include "flows/symptoms.hpp"
#include "flows/work.hpp"
#include "records/lockout.hpp"

namespace holdpin {
namespace {

constexpr std::int64_t kNewsMs = 7 * 86'400'000LL;  // what is older is told on the plate alone

std::string other_language(const Session& session) {
    return session.say().language() == "en" ? "es" : "en";
}

std::string shift_line(const Session& session) {
    const auto window = session.shift();
    if (!window) return session.say()("floor.no-shift");
    return session.say()(session.content().shift(window->id)->name) + " " +
           session.clock(window->start_ms) + " – " + session.clock(window->end_ms);
}

// The desk shows other people's records: it opens with the PIN, once a session.
Result<Next> open_desk(Session& session) {
    if (!session.person()) {
        return Next::push(std::make_unique<BadgeFlow>(
            session.say()("desk.title"),
            [](Session& s, const Person& person) { return sign_on(s, person, nullptr); }));
    }
    if (session.desk_open()) return Next::push(std::make_unique<DeskFlow>());
    return Next::push(std::make_unique<SignFlow>(
        *session.person(), session.say()("desk.title"), session.say()("desk.pin-meaning"),
        [](Session& s) -> Result<Next> {
            s.open_desk();
            return Next::done(std::make_unique<DeskFlow>());
        }));
}

// What became of the person's reports (a report that vanishes is the last one).
Result<void> add_outcomes(const Session& session, const std::string& person,
                          std::vector<Fact>& facts, std::vector<std::string>& lines) {
    const auto rows = TRY(untold_findings(session.db(), person));
    if (rows.empty()) return {};
    Fact fact;
    fact.kind = "outcome-told";
    fact.by = {person};
    std::vector<std::int64_t> entries;
    for (const FindingRow& row : rows) {
        entries.push_back(row.finding.entry);
        lines.push_back(session.say()(
            "told.line", {{"machine", row.machine},
                          {"finding", finding_title(session, row.machine, row.finding)}}));
    }
    fact.data = {{"findings", entries}};
    facts.push_back(std::move(fact));
    return {};
}

Result<void> add_ended_lockouts(const Session& session, const std::string& person,
                                std::vector<Fact>& facts, std::vector<std::string>& lines) {
    const std::int64_t since = session.now() - kNewsMs;
    for (const EndedLockout& one : TRY(ended_to_tell(session.db(), person, since))) {
        Fact fact;
        fact.kind = "lockout-over-told";
        fact.by = {person};
        fact.about = one.entry;
        fact.data = {{"machine", one.machine}};
        facts.push_back(std::move(fact));
        lines.push_back(session.say()("told.lockout", {{"machine", one.machine},
                                                       {"name", session.name(one.lead)},
                                                       {"time", session.when(one.at_ms)}}));
    }
    return {};
}

// What concerns the person and happened without them is told once, when they come.
Result<std::unique_ptr<Flow>> tell_news(Session& session, const std::string& person,
                                        Then then) {
    std::vector<Fact> facts;
    std::vector<std::string> lines;
    TRY(add_outcomes(session, person, facts, lines));
    const char* heading = lines.empty() ? "told.lockout-heading" : "told.heading";
    TRY(add_ended_lockouts(session, person, facts, lines));
    if (facts.empty()) return std::unique_ptr<Flow>();
    TRY(session.book().enter(std::move(facts)));
    return std::unique_ptr<Flow>(std::make_unique<MessageFlow>(
        LugState::open, session.say()(heading), std::move(lines), std::move(then)));
}

// Where the person wanted to go, or what they had left unfinished.
Result<Next> go_on(Session& session, std::unique_ptr<Flow> after) {
    if (after) return Next::unwind(std::move(after));
    if (auto work = TRY(unfinished_work(session))) return Next::unwind(std::move(work));
    for (const Lockout& state : TRY(lockouts(session.db()))) {
        if (state.lead != session.person_id()) continue;
        return Next::unwind(std::make_unique<LockoutFlow>(state.machine));
    }
    return Next::unwind(TRY(unfinished_round(session)));
}

// What somebody who comes to the kiosk touches first.
bool is_coming(const Action& action) {
    return action.id == "sign-on" || action.id == "scan" || action.id == "desk" ||
           action.id.starts_with("machine:");
}

// Rooms with a wet floor and a sign on it, for everybody to see until it is lifted.
Result<std::string> wet_rooms(const Session& session) {
    std::vector<std::string> names;
    for (const WetFloor& floor : TRY(wet_floors(session.db()))) {
        names.push_back(session.room_name(floor.room));
    }
    if (names.empty()) return std::string();
    return session.say()("work.wet", {{"rooms", joined(names, ", ")}});
}

}  // namespace

Result<Page> FloorFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("floor");
    page.middle = session.person() ? say("floor.choose") : shift_line(session);
    if (const std::string wet = TRY(wet_rooms(session)); !wet.empty()) page.left = wet;
    if (!session.person() && is_shift_change(session)) {
        const std::string book = TRY(shift_book_line(session));
        if (!book.empty()) page.middle = book;
    }
    FloorBody body;
    for (const MachineRow& row : TRY(machines(session.db()))) {
        const MachineFacts facts = TRY(facts_of(session, row.plate));
        PlateView view = plate_view(session, facts);
        view.class_name = say(facts.snapshot.machine_class == nullptr
                                  ? Text{}
                                  : facts.snapshot.machine_class->short_name);
        body.plates.push_back(std::move(view));
    }
    if (session.person()) {
        page.back = {"sign-off", say("floor.sign-off"), "", true, ""};
        page.main = {"desk", say("desk.title"), say("desk.second"), true, ""};
    } else {
        body.large = {"sign-on", say("floor.sign-on"), say("floor.sign-on-second"), true, ""};
        page.back = {"language", say("floor.other-language"), "", true, ""};
        page.main = {"desk", say("desk.title"), say("desk.second"), true, ""};
    }
    page.body = std::move(body);
    return page;
}

Result<Next> FloorFlow::act(Session& session, const Action& action) {
    if (action.id == "sign-off") return leave_kiosk(session);
    if (action.id == "language") session.set_language(other_language(session));
    if (!session.person() && is_coming(action)) {
        if (auto asked = TRY(mid_shift_question(session, action))) {
            return Next::push(std::move(asked));
        }
    }
    if (action.id == "desk") return open_desk(session);
    if (action.id == "scan" && !session.person()) return sign_on_scanned(session, action.arg);
    if (action.id == "sign-on") {
        return Next::push(std::make_unique<BadgeFlow>(
            session.say()("floor.sign-on"),
            [](Session& s, const Person& person) { return sign_on(s, person, nullptr); }));
    }
    constexpr std::string_view kMachine = "machine:";
    if (action.id.starts_with(kMachine)) {
        return Next::push(std::make_unique<MachineFlow>(action.id.substr(kMachine.size())));
    }
    return Next::stay();
}

Result<Next> leave_kiosk(Session& session) {
    for (const Lockout& state : TRY(lockouts(session.db()))) {
        const bool mine = session.person() && state.lead == session.person_id();
        if (!mine || state.step != LockoutStep::testing) continue;
        const Say say = session.say();
        const Args args{{"machine", state.machine}, {"time", session.clock(due_ms(state))}};
        return Next::push(std::make_unique<MessageFlow>(
            LugState::held, say("lockout.test-runs", args),
            std::vector<std::string>{say("lockout.test-runs-line", args)},
            [](Session&) -> Result<Next> { return Next::sign_off(); }, say("floor.sign-off")));
    }
    return Next::sign_off();
}

Result<Next> sign_on_scanned(Session& session, const std::string& badge,
                             std::unique_ptr<Flow> after) {
    const auto found = TRY(person_with_badge(session.db(), std::string(trimmed(badge))));
    if (found) return sign_on(session, *found, std::move(after));
    auto asked = std::make_unique<BadgeFlow>(
        session.say()("floor.sign-on"),
        [](Session& s, const Person& person) { return sign_on(s, person, nullptr); });
    TRY(asked->act(session, {"main", badge}));
    return Next::push(std::move(asked));
}

Result<Next> sign_on(Session& session, const Person& person, std::unique_ptr<Flow> after) {
    Fact fact;
    fact.kind = "signed-on";
    fact.by = {person.id};
    TRY(session.book().enter(fact));
    session.open_person(person);
    auto removed = TRY(removals_told(session, person.id));
    if (removed) return Next::unwind(std::move(removed));
    // A function that can be copied holds it, since a message may be asked for more than once.
    const auto wanted = std::make_shared<std::unique_ptr<Flow>>(std::move(after));
    auto told = TRY(tell_news(session, person.id,
                              [wanted](Session& s) { return go_on(s, std::move(*wanted)); }));
    if (told) return Next::unwind(std::move(told));
    return go_on(session, std::move(*wanted));
}

}  // namespace holdpin
