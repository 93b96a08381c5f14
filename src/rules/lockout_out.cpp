// The way out, with locks that change hands: from the release list to the closing.
#include "rules/lockout_moves.hpp"

namespace holdpin::lockout_moves {

At way_out(const Lockout& state) {
    if (!state.locks.empty()) return At::unlocking;
    return state.set_by.empty() ? At::closing : At::lift_off;
}

std::optional<Error> why_not_cleared(const Lockout& state, const LockoutEvent& event) {
    if (!all_ticked(event.items, kClearItems)) {
        return refused(state, "tools, guards and people were not all seen");
    }
    return why_not_all_out(state, event);
}

std::optional<Error> why_not_all_out(const Lockout& state, const LockoutEvent& event) {
    if (!event.seen) return refused(state, "the people outside were not counted");
    if (*event.seen < static_cast<int>(people_on(state).size())) {
        return refused(state, "fewer people are outside than are on the list",
                       "find who is missing, and count again");
    }
    return std::nullopt;
}

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

// Where the key holder has gone, the first of the two takes the key over (1910.147(e)(3)). While
// everybody leaves the zone too: whoever went home cannot be counted, and must not keep the others.
Moved remove_for_absent(const Lockout& from, const LockoutEvent& event) {
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

}  // namespace holdpin::lockout_moves
