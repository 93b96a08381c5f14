// What cleaning a whole room takes, said to the operator at hand-over: fills, drains and cylinders
// from the figures of the class and the floor of the room. A planning estimate: the gauges decide.
#pragma once

#include <optional>
#include <string>

#include "flows/session.hpp"

namespace holdpin {

struct WorkPlan {
    int fills = 0;
    int drains = 0;
    int cylinders = 0;  // full ones, the one under way counted; 0: not said, or no engine
    double minutes = 0;  // of driving; turns, filling and breaks come on top
};
// Absent where the class cleans nothing, or the room does not say its floor, or the figures are
// outside what the sum holds for.
std::optional<WorkPlan> work_plan(const MachineClass& machine_class, const Room& room);

// One short line for the turned plate; empty: there is none.
std::string work_plan_line(const Session& session, const MachineClass& machine_class,
                           const Room& room);

}  // namespace holdpin
