// The way in: from the shutdown to the try, and what host and visitor tell each other before it.
#include "rules/lockout_moves.hpp"

namespace holdpin::lockout_moves {

bool on_the_way_in(At step) {
    return is_one_of(step, {At::propping, At::isolating, At::tagging, At::locking, At::relieving,
                            At::trying});
}

At way_in(const Lockout& state) {
    if (!next_prop(state).empty()) return At::propping;
    if (!next_source(state).empty()) return At::isolating;
    if (!next_measure(state).empty()) return At::tagging;
    if (state.plan.locks && !lead_is_locked(state)) return At::locking;
    if (!next_stored(state).empty() || !next_unseen(state).empty()) return At::relieving;
    return state.plan.locks ? At::trying : At::working;
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

Moved report_prop(const Lockout& from, const LockoutEvent& event) {
    if (from.step != At::propping && from.step != At::relieving) {
        return refused(from, "props are not looked at at this step");
    }
    if (!contains(from.plan.props, event.item)) return refused(from, "there is no such prop");
    Lockout state = from;
    state.damaged.insert(event.item);
    return state;
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

}  // namespace holdpin::lockout_moves
