#include "rules/lockout.hpp"

#include <algorithm>

namespace holdpin {
namespace {

using At = LockoutStep;
using Deed = LockoutDeed;
using Moved = Result<Lockout>;

constexpr std::int64_t kMinuteMs = 60'000;

Error refused(const Lockout& state, const char* what, const char* mend = "") {
    return Error{ErrorKind::refused, what, state.machine, mend};
}

bool contains(const std::vector<std::string>& list, const std::string& item) {
    return std::find(list.begin(), list.end(), item) != list.end();
}

template <std::size_t N>
bool all_ticked(const std::vector<std::string>& ticked,
                const std::array<std::string_view, N>& wanted) {
    return std::all_of(wanted.begin(), wanted.end(), [&](std::string_view one) {
        return contains(ticked, std::string(one));
    });
}

template <typename Done>
std::string first_missing(const std::vector<std::string>& wanted, const Done& done) {
    for (const std::string& one : wanted) {
        if (!done.contains(one)) return one;
    }
    return "";
}

bool lead_is_locked(const Lockout& state) { return state.locks.contains(state.lead); }
bool is_lead(const Lockout& state, const LockoutEvent& event) { return event.by == state.lead; }

bool is_one_of(At step, std::initializer_list<At> steps) {
    return std::find(steps.begin(), steps.end(), step) != steps.end();
}

bool on_the_way_in(At step) {
    return is_one_of(step,
                     {At::propping, At::isolating, At::locking, At::relieving, At::trying});
}

// What is missing first decides where the work stands; so nothing can be passed over.
At way_in(const Lockout& state) {
    if (!next_prop(state).empty()) return At::propping;
    if (!next_source(state).empty()) return At::isolating;
    if (state.plan.locks && !lead_is_locked(state)) return At::locking;
    if (!next_stored(state).empty() || !next_unseen(state).empty()) return At::relieving;
    return state.plan.locks ? At::trying : At::working;
}

At way_out(const Lockout& state) {
    if (!state.locks.empty()) return At::unlocking;
    return state.set_by.empty() ? At::closing : At::lift_off;
}

Lockout going_in(Lockout state, std::int64_t at_ms) {
    state.step = way_in(state);
    if (state.step == At::working) state.verified_ms = at_ms;
    return state;
}

// ---- the way in ---------------------------------------------------------------------------------

Moved shut_down(Lockout state, const LockoutEvent& event) {
    if (state.step != At::shutdown) return refused(state, "it is shut down already");
    return going_in(std::move(state), event.at_ms);
}

Moved set_prop(Lockout state, const LockoutEvent& event) {
    if (state.step != At::propping) return refused(state, "props are not set at this step");
    if (!contains(state.plan.props, event.item)) return refused(state, "there is no such prop");
    if (state.set_by.contains(event.item)) return refused(state, "this prop is set already");
    state.set_by[event.item] = event.by;
    return going_in(std::move(state), event.at_ms);
}

// The second look comes after the locks and the levers: the weight has settled by then.
Moved see_prop(Lockout state, const LockoutEvent& event) {
    if (state.step != At::relieving || !state.plan.second) {
        return refused(state, "props are not looked at by a second person at this step");
    }
    if (!state.set_by.contains(event.item)) return refused(state, "this prop is not set");
    if (state.set_by[event.item] == event.by) {
        return refused(state, "who set a prop does not look at it as the second person",
                       "fetch somebody else");
    }
    if (!event.fine) {
        state.set_by.erase(event.item);
        state.seen_by.clear();
        return going_in(std::move(state), event.at_ms);
    }
    state.seen_by[event.item] = event.by;
    return going_in(std::move(state), event.at_ms);
}

Moved isolate(Lockout state, const LockoutEvent& event) {
    if (state.step != At::isolating) return refused(state, "sources are not isolated at this step");
    if (!contains(state.plan.sources, event.item)) return refused(state, "there is no such source");
    if (!state.isolated.insert(event.item).second) return refused(state, "it is isolated already");
    return going_in(std::move(state), event.at_ms);
}

// Each person puts on one lock when they begin: the key holder first, others as they join.
Moved place_lock(Lockout state, const LockoutEvent& event) {
    const bool joining =
        is_one_of(state.step, {At::relieving, At::trying, At::working});
    if (!state.plan.locks || (state.step != At::locking && !joining)) {
        return refused(state, "locks do not go on at this step");
    }
    if (event.item.empty()) return refused(state, "the lock has no number");
    if (state.locks.contains(event.by)) return refused(state, "one person puts on one lock");
    for (const auto& [person, lock] : state.locks) {
        if (lock.device == event.item) return refused(state, "this lock is on already");
    }
    state.locks[event.by] = {event.item, event.at_ms};
    return joining ? Moved(std::move(state)) : Moved(going_in(std::move(state), event.at_ms));
}

Moved relieve(Lockout state, const LockoutEvent& event) {
    if (state.step != At::relieving) return refused(state, "energy is not relieved at this step");
    if (!contains(state.plan.stored, event.item)) return refused(state, "it stores no energy");
    if (!state.relieved.insert(event.item).second) return refused(state, "it is relieved already");
    return going_in(std::move(state), event.at_ms);
}

Moved try_out(Lockout state, const LockoutEvent& event) {
    if (state.step != At::trying) return refused(state, "it is not tried at this step");
    if (!event.fine) {
        state.isolated.clear();
        state.relieved.clear();
        return going_in(std::move(state), event.at_ms);
    }
    state.step = At::working;
    state.verified_ms = event.at_ms;
    return state;
}

// ---- during the work ----------------------------------------------------------------------------

Moved reverify(Lockout state, const LockoutEvent& event) {
    if (state.step != At::working && state.step != At::looking) {
        return refused(state, "nobody looks again at this step");
    }
    if (!is_lead(state, event) && !state.locks.contains(event.by)) {
        return refused(state, "only somebody of the group looks again");
    }
    const std::int64_t due = due_ms(state);
    if (due != 0 && event.at_ms >= due) {
        return refused(state, "the time to look again has passed", "everybody leaves the zone");
    }
    if (!event.fine) {
        state.moved = true;
        state.step = At::leaving;
        return state;
    }
    const bool locked = !state.plan.locks || lead_is_locked(state);
    state.step = locked ? At::working : way_in(state);
    state.verified_ms = event.at_ms;
    return state;
}

Moved miss(Lockout state, const LockoutEvent& event) {
    const std::int64_t due = due_ms(state);
    if (due == 0 || event.at_ms < due) return refused(state, "no time has passed");
    state.step = At::leaving;
    return state;
}

// Out of the zone: where something moved the support is set anew; a test run that ran over its
// time ends; else somebody looks again before the work goes on.
Moved leave_zone(Lockout state, const LockoutEvent& event) {
    if (state.step != At::leaving) return refused(state, "nobody was sent out of the zone");
    if (event.by.empty()) return refused(state, "somebody must have seen everybody out");
    if (state.moved) {
        state.moved = false;
        state.set_by.clear();
        state.seen_by.clear();
        state.relieved.clear();
        return going_in(std::move(state), event.at_ms);
    }
    if (!next_source(state).empty()) return going_in(std::move(state), event.at_ms);
    state.step = At::looking;
    return state;
}

Moved begin_test(Lockout state, const LockoutEvent& event) {
    if (state.step != At::working || !state.plan.locks) {
        return refused(state, "a test run begins out of the work only");
    }
    if (state.locks.size() != 1) {
        return refused(state, "another lock is on", "its owner takes it off first");
    }
    if (!all_ticked(event.items, kClearItems)) return refused(state, "the zone was not cleared");
    state.locks.clear();
    state.isolated.clear();
    state.relieved.clear();
    state.seen_by.clear();
    state.step = At::testing;
    state.verified_ms = event.at_ms;
    return state;
}

Moved end_test(Lockout state, const LockoutEvent& event) {
    if (state.step != At::testing) return refused(state, "no test run is going on");
    return going_in(std::move(state), event.at_ms);
}

// ---- the way out --------------------------------------------------------------------------------

// Also the way to turn back before the work: whatever is on comes off in the same order.
Moved clear(Lockout state, const LockoutEvent& event) {
    const bool now = on_the_way_in(state.step) ||
                     is_one_of(state.step, {At::shutdown, At::working, At::looking});
    if (!now) return refused(state, "the work is not cleared at this step");
    if (!all_ticked(event.items, kClearItems)) {
        return refused(state, "tools, guards and people were not all seen");
    }
    state.step = way_out(state);
    return state;
}

Moved remove_lock(Lockout state, const LockoutEvent& event) {
    if (!state.locks.contains(event.by)) return refused(state, "this person has no lock on");
    if (state.step == At::leaving) return refused(state, "first everybody leaves the zone");
    if (is_lead(state, event) && state.step != At::unlocking) {
        return refused(state, "the key holder's lock stays on until the work is cleared",
                       "clear the work, or hand over");
    }
    state.locks.erase(event.by);
    if (state.step == At::unlocking) state.step = way_out(state);
    return state;
}

// Where the key holder has gone, the first of the two takes the key over (1910.147(e)(3)).
Moved remove_for_absent(Lockout state, const LockoutEvent& event) {
    if (is_one_of(state.step, {At::leaving, At::closed})) {
        return refused(state, "no lock is taken off for somebody else at this step");
    }
    if (event.second.empty() || event.by == event.second) {
        return refused(state, "two people take off the lock of somebody absent");
    }
    if (event.owner == event.by || event.owner == event.second) {
        return refused(state, "the owner is not absent");
    }
    const bool had_lock = state.locks.erase(event.owner) > 0;
    if (!had_lock && event.owner != state.lead) return refused(state, "this person has no lock on");
    if (!all_ticked(event.items, kAbsentItems)) {
        return refused(state, "not all was stated about the absent owner");
    }
    const bool was_lead = event.owner == state.lead;
    if (was_lead) state.lead = event.by;
    if (state.step == At::unlocking) state.step = way_out(state);
    if (on_the_way_in(state.step)) return going_in(std::move(state), event.at_ms);
    if (was_lead && state.step == At::working && state.plan.locks && !lead_is_locked(state)) {
        return going_in(std::move(state), event.at_ms);
    }
    return state;
}

// No gap: the incoming lock is on before the outgoing one comes off (1910.147(f)(4)).
Moved hand_over(Lockout state, const LockoutEvent& event) {
    if (is_one_of(state.step, {At::leaving, At::testing, At::closed})) {
        return refused(state, "the key is not handed over at this step");
    }
    if (event.second.empty() || event.second == state.lead) {
        return refused(state, "nobody else takes over");
    }
    if (lead_is_locked(state) && !state.locks.contains(event.second)) {
        return refused(state, "the lock of who takes over is not on",
                       "the new lock goes on before the old one comes off");
    }
    state.lead = event.second;
    if (on_the_way_in(state.step)) return going_in(std::move(state), event.at_ms);
    return state;
}

Moved lift_off(Lockout state, const LockoutEvent&) {
    if (state.step != At::lift_off) return refused(state, "nothing is lifted off at this step");
    state.step = At::engine_off;
    return state;
}

Moved stop_engine(Lockout state, const LockoutEvent&) {
    if (state.step != At::engine_off) return refused(state, "it was not lifted off");
    state.step = At::unprop;
    return state;
}

Moved stow_prop(Lockout state, const LockoutEvent& event) {
    if (state.step != At::unprop) return refused(state, "props are not stowed at this step");
    if (state.set_by.erase(event.item) == 0) return refused(state, "this prop is not set");
    state.seen_by.erase(event.item);
    if (state.set_by.empty()) state.step = At::closing;
    return state;
}

Moved close(Lockout state, const LockoutEvent&) {
    if (state.step != At::closing) return refused(state, "something is still on, in or up");
    state.step = At::closed;
    return state;
}

// ---- all together -------------------------------------------------------------------------------

struct Move {
    Deed deed;
    bool lead_only;
    Moved (*make)(Lockout, const LockoutEvent&);
};
constexpr std::array kMoves{
    Move{Deed::shut_down, true, shut_down},
    Move{Deed::set_prop, true, set_prop},
    Move{Deed::see_prop, false, see_prop},
    Move{Deed::isolate, true, isolate},
    Move{Deed::place_lock, false, place_lock},
    Move{Deed::relieve, true, relieve},
    Move{Deed::try_out, true, try_out},
    Move{Deed::reverify, false, reverify},
    Move{Deed::miss, false, miss},
    Move{Deed::leave_zone, false, leave_zone},
    Move{Deed::begin_test, true, begin_test},
    Move{Deed::end_test, true, end_test},
    Move{Deed::clear, true, clear},
    Move{Deed::remove_lock, false, remove_lock},
    Move{Deed::remove_for_absent, false, remove_for_absent},
    Move{Deed::hand_over, true, hand_over},
    Move{Deed::lift_off, true, lift_off},
    Move{Deed::stop_engine, true, stop_engine},
    Move{Deed::stow_prop, true, stow_prop},
    Move{Deed::close, true, close},
};
static_assert(kMoves.size() == kLockoutDeedCount);

}  // namespace

Result<Lockout> apply(const Lockout& state, const LockoutEvent& event) {
    if (state.step == At::closed) return refused(state, "this lockout is closed");
    const Move& move = kMoves[static_cast<std::size_t>(event.deed)];
    if (event.by.empty() != (event.deed == Deed::miss)) {
        return refused(state, "it does not say who did it");
    }
    if (move.lead_only && !is_lead(state, event)) {
        return refused(state, "only the key holder does this", "hand over first");
    }
    return move.make(state, event);
}

std::int64_t due_ms(const Lockout& state) {
    if (state.step == At::testing) return state.verified_ms + kTestRunMinutes * kMinuteMs;
    if (state.step != At::working || state.plan.reverify_minutes == 0) return 0;
    return state.verified_ms + state.plan.reverify_minutes * kMinuteMs;
}

std::string next_prop(const Lockout& state) {
    return first_missing(state.plan.props, state.set_by);
}
std::string next_unseen(const Lockout& state) {
    return state.plan.second ? first_missing(state.plan.props, state.seen_by) : "";
}
std::string next_source(const Lockout& state) {
    return first_missing(state.plan.sources, state.isolated);
}
std::string next_stored(const Lockout& state) {
    return first_missing(state.plan.stored, state.relieved);
}
std::string next_to_stow(const Lockout& state) {
    for (const std::string& prop : state.plan.props) {
        if (state.set_by.contains(prop)) return prop;
    }
    return "";
}

}  // namespace holdpin
