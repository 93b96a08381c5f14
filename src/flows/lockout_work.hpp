// Deeds of a lockout as entries: checked by rules/lockout before they are written, signed where a
// signature is due, and the small questions around them: whose lock, who takes over.
#pragma once

#include <string>

#include "flows/session.hpp"
#include "records/lockout.hpp"

namespace holdpin {

// The running lockout of a machine. Error: absent.
Result<Lockout> running_lockout(const Session& session, const std::string& plate);
// Checks and enters one deed, by whom the event says. `meaning` empty: unsigned.
Result<void> enter_deed(Session& session, const std::string& plate, LockoutEvent event,
                        const std::string& meaning = "");
// Asks the PIN of `event.by`, and of `event.second` where there is one, then enters the deed.
struct DeedToSign {
    std::string plate;
    LockoutEvent event;
    std::string heading;
    std::string statement;
    std::string second_statement;
    std::string meaning;
};
Result<Next> sign_deed(Session& session, DeedToSign deed);

Result<Next> open_lockout(Session& session, const std::string& plate, LockoutJob job);
// The job that a word of the content names. Where no part is held up an arm counts as a person.
LockoutJob lockout_job_in(const Session& session, const std::string& plate,
                          const std::string& named);
// Adds `lockout-opened` to the facts, unless one runs; says why the person may not, else nothing.
Result<std::string> add_lockout(const Session& session, const std::string& plate, LockoutJob job,
                                std::vector<Fact>& facts);
Result<Next> leave_for_day_shift(Session& session, const std::string& plate);
Result<Next> put_lock_on(Session& session, const std::string& plate);
Result<Next> take_lock_off(Session& session, const Lockout& state);
Result<Next> hand_the_key_over(Session& session, const std::string& plate);
// A prop that is bent or missing is a finding that holds the machine, beside the lockout.
Result<Next> prop_damaged(Session& session, const std::string& plate, const std::string& prop,
                          const std::string& by);

// A job has raised the hopper, and the lockout did not come as far as lifting it off its props.
bool stays_on_props(const Session& session, const std::string& plate);

// Names from the class of the machine; the id where it has none.
std::string source_name(const Session& session, const std::string& plate, const std::string& id);
std::string prop_name(const Session& session, const std::string& plate, const std::string& id);

}  // namespace holdpin
