#include "rules/lockout.hpp"

#include <algorithm>

namespace holdpin {
namespace {

using At = LockoutStep;
using Deed = LockoutDeed;
using Moved = Result<Lockout>;

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

// Ticked statements, and a number that is held against the list: somebody who is not outside may be
// under the machine. More than are on the list is no reason to keep the others waiting.
std::optional<Error> why_not_cleared(const Lockout& state, const LockoutEvent& event) {
    if (!all_ticked(event.items, kClearItems)) {
        return refused(state, "tools, guards and people were not all seen");
    }
    if (!event.seen) return refused(state, "the people outside were not counted");
    if (*event.seen < static_cast<int>(people_on(state).size())) {
        return refused(state, "fewer people are outside than are on the list",
                       "find who is missing, and count again");
    }
    return std::nullopt;
}

bool lead_is_locked(const Lockout& state) { return state.locks.contains(state.lead); }
bool is_lead(const Lockout& state, const LockoutEvent& event) { return event.by == state.lead; }

bool is_one_of(At step, std::initializer_list<At> steps) {
    return std::find(steps.begin(), steps.end(), step) != steps.end();
}

bool on_the_way_in(At step) {
    return is_one_of(step, {At::propping, At::isolating, At::tagging, At::locking, At::relieving,
                            At::trying});
}

// What is missing first decides where the work stands; so nothing can be passed over.
At way_in(const Lockout& state) {
    if (!next_prop(state).empty()) return At::propping;
    if (!next_source(state).empty()) return At::isolating;
    if (!next_measure(state).empty()) return At::tagging;
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

// ---- people of another employer -----------------------------------------------------------------

// Host and contractor tell each other their procedures, and the people of the host keep to what
// restricts the other's (1910.147(f)(2), from memory).
Moved tell(const Lockout& from, const LockoutEvent& event) {
    if (!event.visitors.contains(event.by)) return refused(from, "this person is no visitor");
    const bool by_host = !event.second.empty() && event.second != event.by &&
                         !event.visitors.contains(event.second);
    if (!by_host) return refused(from, "nobody of the site tells the visitor");
    if (from.told.contains(event.by)) return refused(from, "they have told each other already");
    if (!all_ticked(event.items, kTellItems)) {
        return refused(from, "not all was told, by the site or by the visitor");
    }
    Lockout state = from;
    state.told.insert(event.by);
    return state;
}

// Seeing everybody out waits for nothing.
bool is_untold_visitor(const Lockout& state, const LockoutEvent& event) {
    if (event.deed == Deed::tell || event.deed == Deed::leave_zone) return false;
    return !std::includes(state.told.begin(), state.told.end(), event.visitors.begin(),
                          event.visitors.end());
}

// ---- the way in ---------------------------------------------------------------------------------

// A procedure that is used less than once a year is reviewed before it is used (WAC 296-803-700).
Moved review(const Lockout& from, const LockoutEvent&) {
    if (from.step != At::reviewing) return refused(from, "the procedure is not read at this step");
    Lockout state = from;
    state.step = At::shutdown;
    return state;
}

Moved shut_down(const Lockout& from, const LockoutEvent& event) {
    if (from.step == At::reviewing) return refused(from, "the procedure was not read yet");
    if (from.step != At::shutdown) return refused(from, "it is shut down already");
    Lockout state = from;
    return going_in(std::move(state), event.at_ms);
}

Moved set_prop(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::propping) return refused(from, "props are not set at this step");
    if (!contains(from.plan.props, event.item)) return refused(from, "there is no such prop");
    if (from.set_by.contains(event.item)) return refused(from, "this prop is set already");
    Lockout state = from;
    state.set_by[event.item] = event.by;
    return going_in(std::move(state), event.at_ms);
}

// The second look comes after the locks and the levers: the weight has settled by then.
Moved see_prop(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::relieving || !from.plan.second) {
        return refused(from, "props are not looked at by a second person at this step");
    }
    if (!from.set_by.contains(event.item)) return refused(from, "this prop is not set");
    if (from.set_by.at(event.item) == event.by) {
        return refused(from, "who set a prop does not look at it as the second person",
                       "fetch somebody else");
    }
    Lockout state = from;
    if (!event.fine) {
        state.set_by.erase(event.item);
        state.seen_by.clear();
        return going_in(std::move(state), event.at_ms);
    }
    state.seen_by[event.item] = event.by;
    return going_in(std::move(state), event.at_ms);
}

Moved isolate(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::isolating) return refused(from, "sources are not isolated at this step");
    if (!contains(from.plan.sources, event.item)) return refused(from, "there is no such source");
    if (from.isolated.contains(event.item)) return refused(from, "it is isolated already");
    Lockout state = from;
    state.isolated.insert(event.item);
    return going_in(std::move(state), event.at_ms);
}

Moved take_measure(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::tagging) return refused(from, "no measure is taken at this step");
    if (!contains(from.plan.tags, event.item)) return refused(from, "it takes a lock");
    if (from.measured.contains(event.item)) return refused(from, "the measure is taken already");
    Lockout state = from;
    state.measured.insert(event.item);
    return going_in(std::move(state), event.at_ms);
}

// Each person puts on one lock when they begin: the key holder first, others as they join.
Moved place_lock(const Lockout& from, const LockoutEvent& event) {
    const bool joining =
        is_one_of(from.step, {At::relieving, At::trying, At::working});
    if (!from.plan.locks || (from.step != At::locking && !joining)) {
        return refused(from, "locks do not go on at this step");
    }
    if (event.item.empty()) return refused(from, "the lock has no number");
    if (from.locks.contains(event.by)) return refused(from, "one person puts on one lock");
    for (const auto& [person, lock] : from.locks) {
        if (lock.device == event.item) return refused(from, "this lock is on already");
    }
    Lockout state = from;
    state.locks[event.by] = {event.item, event.at_ms};
    return joining ? Moved(std::move(state)) : Moved(going_in(std::move(state), event.at_ms));
}

Moved relieve(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::relieving) return refused(from, "energy is not relieved at this step");
    if (!contains(from.plan.stored, event.item)) return refused(from, "it stores no energy");
    if (from.relieved.contains(event.item)) return refused(from, "it is relieved already");
    Lockout state = from;
    state.relieved.insert(event.item);
    return going_in(std::move(state), event.at_ms);
}

Moved try_out(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::trying) return refused(from, "it is not tried at this step");
    Lockout state = from;
    if (!event.fine) {
        state.isolated.clear();
        state.measured.clear();
        state.relieved.clear();
        return going_in(std::move(state), event.at_ms);
    }
    state.step = At::working;
    state.verified_ms = event.at_ms;
    return state;
}

// ---- during the work ----------------------------------------------------------------------------

Moved reverify(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::working && from.step != At::looking) {
        return refused(from, "nobody looks again at this step");
    }
    if (!is_lead(from, event) && !from.locks.contains(event.by)) {
        return refused(from, "only somebody of the group looks again");
    }
    if (is_look_missed(from, event.at_ms)) {
        return refused(from, "the time to look again has passed", "everybody leaves the zone");
    }
    Lockout state = from;
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

Moved miss(const Lockout& from, const LockoutEvent& event) {
    if (!is_look_missed(from, event.at_ms)) return refused(from, "no time has passed");
    Lockout state = from;
    state.step = At::leaving;
    return state;
}

// Out of the zone: where something moved the support is set anew; a test run that ran over its
// time ends; else somebody looks again before the work goes on.
Moved leave_zone(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::leaving) return refused(from, "nobody was sent out of the zone");
    if (event.by.empty()) return refused(from, "somebody must have seen everybody out");
    Lockout state = from;
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

Moved begin_test(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::working || !from.plan.locks) {
        return refused(from, "a test run begins out of the work only");
    }
    if (from.locks.size() != 1) {
        return refused(from, "another lock is on", "its owner takes it off first");
    }
    if (auto why = why_not_cleared(from, event)) return *why;
    Lockout state = from;
    state.locks.clear();
    state.isolated.clear();
    state.measured.clear();
    state.relieved.clear();
    state.seen_by.clear();
    state.step = At::testing;
    state.verified_ms = event.at_ms;
    return state;
}

Moved end_test(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::testing) return refused(from, "no test run is going on");
    Lockout state = from;
    return going_in(std::move(state), event.at_ms);
}

// ---- the way out --------------------------------------------------------------------------------

// Also the way to turn back before the work: whatever is on comes off in the same order.
Moved clear(const Lockout& from, const LockoutEvent& event) {
    const bool now = on_the_way_in(from.step) ||
                     is_one_of(from.step, {At::reviewing, At::shutdown, At::working, At::looking});
    if (!now) return refused(from, "the work is not cleared at this step");
    if (auto why = why_not_cleared(from, event)) return *why;
    Lockout state = from;
    state.step = way_out(state);
    return state;
}

Moved remove_lock(const Lockout& from, const LockoutEvent& event) {
    if (!from.locks.contains(event.by)) return refused(from, "this person has no lock on");
    if (from.step == At::leaving) return refused(from, "first everybody leaves the zone");
    if (is_lead(from, event) && from.step != At::unlocking) {
        return refused(from, "the key holder's lock stays on until the work is cleared",
                       "clear the work, or hand over");
    }
    Lockout state = from;
    state.locks.erase(event.by);
    if (state.step == At::unlocking) state.step = way_out(state);
    return state;
}

// Where the key holder has gone, the first of the two takes the key over (1910.147(e)(3)).
Moved remove_for_absent(const Lockout& from, const LockoutEvent& event) {
    if (is_one_of(from.step, {At::leaving, At::closed})) {
        return refused(from, "no lock is taken off for somebody else at this step");
    }
    if (event.second.empty() || event.by == event.second) {
        return refused(from, "two people take off the lock of somebody absent");
    }
    if (event.owner == event.by || event.owner == event.second) {
        return refused(from, "the owner is not absent");
    }
    if (!from.locks.contains(event.owner) && event.owner != from.lead) {
        return refused(from, "this person has no lock on");
    }
    if (!all_ticked(event.items, kAbsentItems)) {
        return refused(from, "not all was stated about the absent owner");
    }
    const bool was_lead = event.owner == from.lead;
    Lockout state = from;
    state.locks.erase(event.owner);
    if (was_lead) state.lead = event.by;
    if (state.step == At::unlocking) state.step = way_out(state);
    if (on_the_way_in(state.step)) return going_in(std::move(state), event.at_ms);
    if (was_lead && state.step == At::working && state.plan.locks && !lead_is_locked(state)) {
        return going_in(std::move(state), event.at_ms);
    }
    return state;
}

// No gap: the incoming lock is on before the outgoing one comes off (1910.147(f)(4)).
Moved hand_over(const Lockout& from, const LockoutEvent& event) {
    if (is_one_of(from.step, {At::leaving, At::testing, At::closed})) {
        return refused(from, "the key is not handed over at this step");
    }
    if (event.second.empty() || event.second == from.lead) {
        return refused(from, "nobody else takes over");
    }
    if (lead_is_locked(from) && !from.locks.contains(event.second)) {
        return refused(from, "the lock of who takes over is not on",
                       "the new lock goes on before the old one comes off");
    }
    Lockout state = from;
    state.lead = event.second;
    if (on_the_way_in(state.step)) return going_in(std::move(state), event.at_ms);
    return state;
}

Moved lift_off(const Lockout& from, const LockoutEvent&) {
    if (from.step != At::lift_off) return refused(from, "nothing is lifted off at this step");
    Lockout state = from;
    state.step = At::engine_off;
    return state;
}

Moved stop_engine(const Lockout& from, const LockoutEvent&) {
    if (from.step != At::engine_off) return refused(from, "it was not lifted off");
    Lockout state = from;
    state.step = At::unprop;
    return state;
}

Moved stow_prop(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::unprop) return refused(from, "props are not stowed at this step");
    if (!from.set_by.contains(event.item)) return refused(from, "this prop is not set");
    Lockout state = from;
    state.set_by.erase(event.item);
    state.seen_by.erase(event.item);
    if (state.set_by.empty()) state.step = At::closing;
    return state;
}

Moved close(const Lockout& from, const LockoutEvent&) {
    if (from.step != At::closing) return refused(from, "something is still on, in or up");
    Lockout state = from;
    state.step = At::closed;
    return state;
}

// ---- all together -------------------------------------------------------------------------------

struct Move {
    Deed deed;
    bool lead_only;
    Moved (*make)(const Lockout&, const LockoutEvent&);
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
    Move{Deed::review, true, review},
    Move{Deed::take_measure, true, take_measure},
    Move{Deed::tell, false, tell},
};
static_assert(kMoves.size() == kLockoutDeedCount);

}  // namespace

Result<Lockout> apply(const Lockout& state, const LockoutEvent& event) {
    if (state.step == At::closed) return refused(state, "this lockout is closed");
    const Move& move = kMoves[static_cast<std::size_t>(event.deed)];
    if (event.by.empty() != (event.deed == Deed::miss)) {
        return refused(state, "it does not say who did it");
    }
    if (is_untold_visitor(state, event)) {
        return refused(state, "site and visitor have not told each other their procedures",
                       "both tell, and sign that they did (29 CFR 1910.147(f)(2))");
    }
    if (move.lead_only && !is_lead(state, event)) {
        return refused(state, "only the key holder does this", "hand over first");
    }
    return move.make(state, event);
}

}  // namespace holdpin
