// The moves of rules/lockout.hpp, one a deed, each in the file of its stretch: the way in, the
// work, the way out. A move is asked only where apply() lets the deed through. For lockout*.cpp.
#pragma once

#include <algorithm>
#include <initializer_list>

#include "rules/lockout.hpp"

namespace holdpin::lockout_moves {

using At = LockoutStep;
using Deed = LockoutDeed;
using Moved = Result<Lockout>;

inline Error refused(const Lockout& state, const char* what, const char* mend = "") {
    return Error{ErrorKind::refused, what, state.machine, mend};
}

inline bool contains(const std::vector<std::string>& list, const std::string& item) {
    return std::find(list.begin(), list.end(), item) != list.end();
}

template <std::size_t N>
bool all_ticked(const std::vector<std::string>& ticked,
                const std::array<std::string_view, N>& wanted) {
    return std::all_of(wanted.begin(), wanted.end(), [&](std::string_view one) {
        return contains(ticked, std::string(one));
    });
}

inline bool is_one_of(At step, std::initializer_list<At> steps) {
    return std::find(steps.begin(), steps.end(), step) != steps.end();
}

inline bool lead_is_locked(const Lockout& state) { return state.locks.contains(state.lead); }
inline bool is_lead(const Lockout& state, const LockoutEvent& event) {
    return event.by == state.lead;
}

bool on_the_way_in(At step);
// What is missing first decides where the work stands; so nothing can be passed over.
At way_in(const Lockout& state);
At way_out(const Lockout& state);
Lockout going_in(Lockout state, std::int64_t at_ms);
// A number that is held against the list: somebody who is not outside may be under the machine.
// More than are on the list is no reason to keep the others waiting.
std::optional<Error> why_not_all_out(const Lockout& state, const LockoutEvent& event);
// The same, and the ticked statements.
std::optional<Error> why_not_cleared(const Lockout& state, const LockoutEvent& event);
// Of another employer, and has not been told. Seeing everybody out waits for nothing.
bool is_untold_visitor(const Lockout& state, const LockoutEvent& event);

// ---- lockout_in.cpp ----
Moved tell(const Lockout& from, const LockoutEvent& event);
Moved review(const Lockout& from, const LockoutEvent& event);
Moved shut_down(const Lockout& from, const LockoutEvent& event);
Moved set_prop(const Lockout& from, const LockoutEvent& event);
Moved see_prop(const Lockout& from, const LockoutEvent& event);
Moved report_prop(const Lockout& from, const LockoutEvent& event);
Moved isolate(const Lockout& from, const LockoutEvent& event);
Moved take_measure(const Lockout& from, const LockoutEvent& event);
Moved place_lock(const Lockout& from, const LockoutEvent& event);
Moved relieve(const Lockout& from, const LockoutEvent& event);
Moved try_out(const Lockout& from, const LockoutEvent& event);

// ---- lockout_inside.cpp ----
Moved reverify(const Lockout& from, const LockoutEvent& event);
Moved miss(const Lockout& from, const LockoutEvent& event);
Moved leave_zone(const Lockout& from, const LockoutEvent& event);
Moved begin_test(const Lockout& from, const LockoutEvent& event);
Moved end_test(const Lockout& from, const LockoutEvent& event);

// ---- lockout_out.cpp ----
Moved clear(const Lockout& from, const LockoutEvent& event);
Moved remove_lock(const Lockout& from, const LockoutEvent& event);
Moved remove_for_absent(const Lockout& from, const LockoutEvent& event);
Moved hand_over(const Lockout& from, const LockoutEvent& event);
Moved lift_off(const Lockout& from, const LockoutEvent& event);
Moved stop_engine(const Lockout& from, const LockoutEvent& event);
Moved stow_prop(const Lockout& from, const LockoutEvent& event);
Moved close(const Lockout& from, const LockoutEvent& event);

}  // namespace holdpin::lockout_moves
