#include <algorithm>

#include "rules/lockout_moves.hpp"

namespace holdpin {
namespace {

using namespace lockout_moves;

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
    Move{Deed::report_prop, false, report_prop},
};
static_assert(kMoves.size() == kLockoutDeedCount);

// With a damaged prop nobody goes on under the hopper, whoever asks.
bool leads_out(Deed deed) {
    constexpr std::array kOut{Deed::miss,        Deed::leave_zone, Deed::clear,
                              Deed::remove_lock, Deed::remove_for_absent, Deed::hand_over,
                              Deed::lift_off,    Deed::stop_engine, Deed::stow_prop,
                              Deed::close,       Deed::tell,       Deed::report_prop};
    return std::find(kOut.begin(), kOut.end(), deed) != kOut.end();
}

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
    if (!state.damaged.empty() && !leads_out(event.deed)) {
        return refused(state, "a prop is damaged: nobody works under this hopper", "turn back");
    }
    return move.make(state, event);
}

}  // namespace holdpin
