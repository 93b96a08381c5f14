#include "flows/lockout.hpp"

#include "flows/lockout_visitor.hpp"
#include "flows/lockout_count.hpp"
#include "flows/lockout_rights.hpp"
#include "flows/lockout_work.hpp"
#include "flows/machine.hpp"
#include "flows/pieces.hpp"
#include "flows/plates.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kTestReading = "reading:";
constexpr std::string_view kAbsent = "absent:";

LockoutEvent by_me(const Session& session, LockoutDeed deed, std::string item = "",
                   bool fine = true) {
    LockoutEvent event;
    event.deed = deed;
    event.by = session.person_id();
    event.item = std::move(item);
    event.fine = fine;
    return event;
}

Result<Next> enter_and_stay(Session& session, const std::string& plate, LockoutEvent event,
                            const std::string& meaning = "") {
    TRY(enter_deed(session, plate, std::move(event), meaning));
    return Next::stay();
}

Result<Next> sign_mine(Session& session, const std::string& plate, LockoutEvent event,
                       const std::string& key) {
    const Say say = session.say();
    DeedToSign deed;
    deed.plate = plate;
    deed.event = std::move(event);
    deed.heading = say("lockout.sign");
    deed.statement = say("lockout.meaning-" + key, {{"machine", plate}});
    deed.meaning = key;
    return sign_deed(session, std::move(deed));
}

}  // namespace

bool LockoutFlow::on_board(const Session& session, const Lockout& state) const {
    const bool lead = session.person_id() == state.lead;
    return !lead || show_board_ || state.step == LockoutStep::working ||
           state.step == LockoutStep::unlocking || state.step == LockoutStep::leaving;
}

Result<Page> LockoutFlow::page(const Session& session) const {
    const auto state = TRY(lockout_of(session.db(), plate_));
    if (!state) return start_page(session);
    if (must_tell(session, *state)) return telling_page(session, *state);
    if (on_board(session, *state)) return board_page(session, *state);
    return step_page(session, *state);
}

Result<Next> LockoutFlow::act(Session& session, const Action& action) {
    const auto state = TRY(lockout_of(session.db(), plate_));
    if (!state) return start(session, action);
    if (must_tell(session, *state)) {
        if (action.id == "back") return Next::back();
        return action.id == "done" ? tell_each_other(session, plate_) : Next::stay();
    }
    if (on_board(session, *state)) return act_board(session, *state, action);
    return act_step(session, *state, action);
}

Result<Next> LockoutFlow::start(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    if (action.id == "leave") return leave_for_day_shift(session, plate_);
    constexpr std::string_view kJob = "job:";
    if (!action.id.starts_with(kJob)) return Next::stay();
    const auto job = lockout_job_named(action.id.substr(kJob.size()));
    const MachineClass* machine_class = class_of(session, plate_);
    const bool raised = machine_class != nullptr && !machine_class->props.empty();
    const bool offered = job && (raised || *job == LockoutJob::me);
    return offered ? open_lockout(session, plate_, *job) : Result<Next>(Next::stay());
}

// ---- the key holder's steps ---------------------------------------------------------------------

Result<Next> LockoutFlow::act_step(Session& session, const Lockout& state, const Action& action) {
    if (state.step != LockoutStep::relieving) second_.clear();
    if (action.id == "back") return Next::back();
    if (action.id == "board") {
        show_board_ = true;
        return Next::stay();
    }
    if (action.id == "done") return done(session, state);
    if (action.id.starts_with(kTestReading)) {
        return read(session, state, action.id.substr(kTestReading.size()));
    }
    return Next::stay();
}

// What is confirmed by the main action.
Result<Next> LockoutFlow::done(Session& session, const Lockout& state) {
    const auto enter = [&](LockoutDeed deed, std::string item = "") {
        return enter_and_stay(session, plate_, by_me(session, deed, std::move(item)));
    };
    switch (state.step) {
        case LockoutStep::reviewing:
            return sign_mine(session, plate_, by_me(session, LockoutDeed::review),
                             "reviewed-the-procedure");
        case LockoutStep::shutdown: return enter(LockoutDeed::shut_down);
        case LockoutStep::isolating: return enter(LockoutDeed::isolate, next_source(state));
        case LockoutStep::tagging:
            return enter(LockoutDeed::take_measure, next_measure(state));
        case LockoutStep::locking:
            if (TRY(may_join(session, plate_))) return put_lock_on(session, plate_);
            return Next::push(refusal(session, session.say()("lockout.lock-refused"),
                                      session.say()("lockout.lapsed")));
        case LockoutStep::relieving:
            if (!next_stored(state).empty()) return enter(LockoutDeed::relieve, next_stored(state));
            return fetch_second(session);
        case LockoutStep::testing: return enter(LockoutDeed::end_test);
        case LockoutStep::lift_off:
            return sign_mine(session, plate_, by_me(session, LockoutDeed::lift_off),
                             "everybody-is-out");
        case LockoutStep::engine_off: return enter(LockoutDeed::stop_engine);
        case LockoutStep::unprop: return enter(LockoutDeed::stow_prop, next_to_stow(state));
        case LockoutStep::closing:
            return sign_mine(session, plate_, by_me(session, LockoutDeed::close),
                             stays_on_props(session, plate_) ? "left-on-props"
                                                             : "everything-down");
        default: return Next::stay();
    }
}

// What is answered by a reading.
Result<Next> LockoutFlow::read(Session& session, const Lockout& state, const std::string& reading) {
    if (!state.damaged.empty()) return Next::stay();  // only the way out is asked
    const bool fine = reading == "fine";
    const bool seeing = state.step == LockoutStep::relieving && !second_.empty();
    if (reading == "damaged") {
        if (seeing) return prop_damaged(session, plate_, next_unseen(state), second_);
        if (state.step != LockoutStep::propping) return Next::stay();
        return prop_damaged(session, plate_, next_prop(state), session.person_id());
    }
    if (!fine && reading != "not-fine") return Next::stay();
    if (state.step == LockoutStep::propping) {
        const std::string prop = next_prop(state);
        if (fine) {
            return enter_and_stay(session, plate_, by_me(session, LockoutDeed::set_prop, prop));
        }
        return Next::push(refusal(session, session.say()("lockout.not-home"),
                                  session.say()("lockout.not-home-line")));
    }
    if (seeing) {
        LockoutEvent event = by_me(session, LockoutDeed::see_prop, next_unseen(state), fine);
        event.by = second_;
        return enter_and_stay(session, plate_, std::move(event), "looked-at-the-prop");
    }
    if (state.step == LockoutStep::trying) {
        LockoutEvent event = by_me(session, LockoutDeed::try_out, "", fine);
        if (fine) return sign_mine(session, plate_, std::move(event), "nothing-moved");
        return enter_and_stay(session, plate_, std::move(event));
    }
    if (state.step == LockoutStep::looking) {
        return enter_and_stay(session, plate_, by_me(session, LockoutDeed::reverify, "", fine));
    }
    return Next::stay();
}

// The second person signs once and then reads each prop on its own.
Result<Next> LockoutFlow::fetch_second(Session& session) {
    second_.clear();
    return Next::push(std::make_unique<BadgeFlow>(
        session.say()("lockout.second"), [this](Session& s, const Person& person) -> Result<Next> {
            const Lockout state = TRY(running_lockout(s, plate_));
            const Say say = s.say();
            for (const auto& [prop, by] : state.set_by) {
                if (by != person.id) continue;
                return Next::push(
                    refusal(s, say("lockout.second-refused"), say("lockout.second-other")));
            }
            const std::string why = TRY(why_not_second(s, plate_, person));
            if (!why.empty()) return Next::push(refusal(s, say("lockout.second-refused"), why));
            return Next::push(std::make_unique<SignFlow>(
                person, say("lockout.second"), say("lockout.second-meaning", {{"machine", plate_}}),
                [this, id = person.id](Session&) -> Result<Next> {
                    second_ = id;
                    return Next::done();
                }));
        }));
}

// ---- the board ----------------------------------------------------------------------------------

Result<Next> LockoutFlow::act_board(Session& session, const Lockout& state, const Action& action) {
    if (action.id == "back") {
        if (!show_board_) return Next::back();
        show_board_ = false;
        return Next::stay();
    }
    const bool group = may_lock_out(session, *session.person());
    if (action.id == "join" && TRY(may_join(session, plate_))) return put_lock_on(session, plate_);
    if (action.id == "off") return take_lock_off(session, state);
    if (action.id == "look") {
        return enter_and_stay(session, plate_, by_me(session, LockoutDeed::reverify));
    }
    if (action.id == "moved") {
        return enter_and_stay(session, plate_, by_me(session, LockoutDeed::reverify, "", false));
    }
    if (action.id == "over") return hand_the_key_over(session, plate_);
    if (action.id == "test") return clear_zone(session, plate_, LockoutDeed::begin_test);
    if (action.id == "clear") {
        show_board_ = false;
        return clear_zone(session, plate_, LockoutDeed::clear);
    }
    if (action.id.starts_with(kAbsent) && group) {
        return take_off_for_absent(session, state, *session.person(),
                                   action.id.substr(kAbsent.size()));
    }
    return Next::stay();
}

}  // namespace holdpin
