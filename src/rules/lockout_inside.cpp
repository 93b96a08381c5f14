// During the work: looking again, leaving the zone, test runs.
#include "rules/lockout_moves.hpp"

namespace holdpin::lockout_moves {

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
    if (auto why = why_not_all_out(from, event)) return *why;
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

}  // namespace holdpin::lockout_moves
