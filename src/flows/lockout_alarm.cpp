#include "flows/lockout_alarm.hpp"

#include "flows/lockout_count.hpp"
#include "flows/lockout_work.hpp"
#include "flows/pieces.hpp"

namespace holdpin {
namespace {

Result<Next> count_out(Session& session, const std::string& plate, const Person& person) {
    LockoutEvent event;
    event.deed = LockoutDeed::leave_zone;
    event.by = person.id;
    return count_people(session, plate, event);
}

// Nothing else is done first: going back signs off.
class RemovalTold final : public Flow {
  public:
    explicit RemovalTold(std::vector<RemovedLock> removed) : removed_(std::move(removed)) {}

    Result<Page> page(const Session& session) const override {
        const Say say = session.say();
        Page page = session.blank("lock-removed");
        MessageBody body;
        body.mark = LugState::held;
        body.heading = say("lockout.told-heading");
        for (const RemovedLock& one : removed_) {
            body.lines.push_back(say("lockout.told-line",
                                     {{"device", one.device},
                                      {"machine", one.machine},
                                      {"time", session.when(one.at_ms)},
                                      {"name", session.name(one.by.front())},
                                      {"second", session.name(one.by.back())}}));
        }
        body.lines.push_back(say("lockout.told-do"));
        page.body = std::move(body);
        page.back = {"back", say("floor.sign-off"), "", true, ""};
        page.main = {"sign", say("lockout.told-sign"), say("pin.second"), true, ""};
        return page;
    }

    Result<Next> act(Session& session, const Action& action) override {
        if (action.id == "back") return Next::sign_off();
        if (action.id != "sign") return Next::stay();
        return Next::push(std::make_unique<SignFlow>(
            *session.person(), session.say()("lockout.told-heading"),
            session.say()("lockout.told-meaning"), [removed = removed_](Session& s) {
                return acknowledge(s, removed);
            }));
    }

  private:
    static Result<Next> acknowledge(Session& session, const std::vector<RemovedLock>& removed) {
        std::vector<Fact> facts;
        for (const RemovedLock& one : removed) {
            facts.push_back(TRY(session.signed_fact("lock-removal-acknowledged",
                                                    session.person_id(), "i-was-told",
                                                    {{"machine", one.machine}})));
            facts.back().about = one.entry;
        }
        TRY(session.book().enter(std::move(facts)));
        return Next::unwind();
    }

    std::vector<RemovedLock> removed_;
};

}  // namespace

Result<std::vector<std::string>> missed_lockouts(Session& session) {
    std::vector<std::string> plates;
    for (const Lockout& state : TRY(lockouts(session.db()))) {
        if (is_look_missed(state, session.now())) {
            // With records that cannot be written it is not entered, and shows and sounds all the
            // same: people may be under the hopper.
            LockoutEvent event;
            event.deed = LockoutDeed::miss;
            static_cast<void>(enter_deed(session, state.machine, std::move(event)));
            plates.push_back(state.machine);
        } else if (state.step == LockoutStep::leaving) {
            plates.push_back(state.machine);
        }
    }
    return plates;
}

Result<std::int64_t> next_lockout_due(const Session& session) {
    std::int64_t next = 0;
    for (const Lockout& state : TRY(lockouts(session.db()))) {
        const std::int64_t due = due_ms(state);
        if (due != 0 && (next == 0 || due < next)) next = due;
    }
    return next;
}

Result<Page> LeaveZoneFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("leave-zone/" + plate_);
    const auto state = TRY(lockout_of(session.db(), plate_));
    SheetBody body;
    body.call =
        say("sheet.emergency-number", {{"number", session.content().site.emergency_number}});
    const bool moved = state && state->moved;
    body.title =
        say(moved ? "leave-zone.title-moved" : "leave-zone.title", {{"machine", plate_}});
    body.first = say("leave-zone.first");
    for (const char* key : {"leave-zone.call", "leave-zone.count", "leave-zone.look"}) {
        body.act.push_back(say(key));
    }
    body.never_label = say("sheet.never");
    body.never.push_back(say("leave-zone.never"));
    body.tell_label = say("leave-zone.who-label");
    std::vector<std::string> names;
    if (state) {
        for (const auto& [person, lock] : state->locks) names.push_back(session.name(person));
        if (names.empty()) names.push_back(session.name(state->lead));
    }
    body.tell = joined(names, ", ");
    body.drawing = "sheet-crush";
    page.body = std::move(body);
    page.main = {"all-out", say("leave-zone.main"), say("leave-zone.main-second"), true, ""};
    return page;
}

Result<Next> LeaveZoneFlow::act(Session& session, const Action& action) {
    const auto state = TRY(lockout_of(session.db(), plate_));
    if (!state || state->step != LockoutStep::leaving) return Next::back();
    if (action.id != "all-out") return Next::stay();
    if (session.person()) return count_out(session, plate_, *session.person());
    return Next::push(std::make_unique<BadgeFlow>(
        session.say()("leave-zone.main"), [plate = plate_](Session& s, const Person& person) {
            return count_out(s, plate, person);
        }));
}

Result<std::unique_ptr<Flow>> removals_told(const Session& session, const std::string& person) {
    auto removed = TRY(removals_to_tell(session.db(), person));
    if (removed.empty()) return std::unique_ptr<Flow>();
    return std::unique_ptr<Flow>(std::make_unique<RemovalTold>(std::move(removed)));
}

}  // namespace holdpin
