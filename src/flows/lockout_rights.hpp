// Who may do what in a lockout: the lockout itself, a job, the second look at the props, reaching
// in alone.
#pragma once

#include <string>

#include "flows/session.hpp"
#include "rules/lockout.hpp"

namespace holdpin {

// Who has the duty, or the endorsement, to be in a lockout.
bool may_lock_out(const Session& session, const Person& person);
// Why the person signed on may not do this job here; empty: they may.
Result<std::string> why_not_job(const Session& session, const MachineClass& machine_class,
                                LockoutJob job);
// The same of another person, who takes it over.
Result<std::string> why_not_job(const Session& session, const Person& person,
                                const MachineClass& machine_class, LockoutJob job);
// Whether the person signed on may put a lock on here: the permit, and no training run out.
Result<bool> may_join(const Session& session, const std::string& plate);
// The second person at the props: in a lockout themselves, or current in the class of the machine
// (an affected employee at least, 1910.147(c)(7), from memory). Empty: they may.
Result<std::string> why_not_second(const Session& session, const std::string& plate,
                                   const Person& person);
// A competent person's assessment of reaching in alone counts for a year.
Result<bool> arm_alone_assessed(const Session& session, const std::string& machine_class);

}  // namespace holdpin
