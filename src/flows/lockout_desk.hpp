// The procedure behind a lockout, at the desk: its yearly inspection by somebody who does not use
// it (1910.147(c)(6), from memory), and the written assessment under which one person may reach in
// alone (site rule).
#pragma once

#include <string>
#include <vector>

#include "flows/session.hpp"

namespace holdpin {

// Rows for the desk of a machine.
Result<std::vector<Row>> procedure_rows(const Session& session, const MachineClass& machine_class);
Result<Next> inspect_procedure(Session& session, const std::string& machine,
                               const MachineClass& machine_class);
Result<Next> assess_arm_alone(Session& session, const MachineClass& machine_class);

}  // namespace holdpin
