// A flow as a table: rows of state, event, guard, next state and the entry that is written.
// The first row whose state and event match and whose guard holds is taken; no row is a refusal.
// Tests walk every table: states reachable, a way out of each, and print it.
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace holdpin {

template <typename State, typename Event, typename Guard>
struct Row3 {
    State from;
    Event event;
    Guard guard;
    State to;
    std::string_view entry;  // kind of the entry written; empty: none
};

// `holds(guard)` tells whether a guard is met now.
template <typename Table, typename State, typename Event, typename Holds>
auto step(const Table& table, State from, Event event, const Holds& holds)
    -> std::optional<typename Table::value_type> {
    for (const auto& row : table) {
        if (row.from == from && row.event == event && holds(row.guard)) return row;
    }
    return std::nullopt;
}

}  // namespace holdpin
