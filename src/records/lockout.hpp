// Lockouts between entries and values: which kind of entry is which deed, a state as canonical JSON
// and back, and the questions to what was folded of them. An entry that does not follow from the
// state before it changes nothing: the order is kept here as well.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/ledger.hpp"
#include "rules/lockout.hpp"
#include "store/database.hpp"

namespace holdpin {

// A state written out; the same state gives the same bytes.
std::string lockout_text(const Lockout& state);
// Error: damaged.
Result<Lockout> lockout_from(std::string_view text);

std::string_view kind_of(LockoutDeed deed);
// What an entry keeps of an event, and the event of an entry; nothing for kinds of other work.
nlohmann::json lockout_data(const Lockout& state, const LockoutEvent& event);
std::optional<LockoutEvent> lockout_event_of(const Entry& entry);
// Of whom an event names, by the roster: people of another employer.
Result<std::set<std::string>> visitors_in(Database& db, const LockoutEvent& event);
nlohmann::json opening_data(const LockoutOpening& opening, std::string_view machine_class);
// Error: damaged, where anything of what the lockout demands is missing.
Result<LockoutOpening> opening_of(const Entry& entry);

// ---- what runs ----
Result<std::optional<Lockout>> lockout_of(Database& db, std::string_view machine);
Result<std::vector<Lockout>> lockouts(Database& db);  // by machine
// The machine on which a lock is now; empty: on none.
Result<std::string> machine_with_lock(Database& db, std::string_view device);

// ---- the lock register: one lock, one person, for good ----
Result<std::string> owner_of_lock(Database& db, std::string_view device);  // empty: nobody yet
Result<std::string> lock_of(Database& db, std::string_view person);        // the last one used

// ---- locks taken off for somebody absent, who has not been told yet ----
struct RemovedLock {
    std::int64_t entry = 0;
    std::string machine;
    std::string device;
    std::vector<std::string> by;
    std::int64_t at_ms = 0;
};
Result<std::vector<RemovedLock>> removals_to_tell(Database& db, std::string_view person);

// The last lockout of a machine that is over, of which somebody who may operate it and did not lead
// it has not heard (1910.147(c)(9), from memory: affected people are told when it is off).
struct EndedLockout {
    std::string machine;
    std::int64_t entry = 0;
    std::string lead;
    std::int64_t at_ms = 0;
};
// None that ended before `since_ms`, and none where a hopper went up again.
Result<std::vector<EndedLockout>> ended_to_tell(Database& db, std::string_view person,
                                                std::int64_t since_ms);

// ---- the procedure of a class ----
struct ProcedureInspection {
    std::int64_t at_ms = 0;
    std::string by;
};
Result<std::optional<ProcedureInspection>> procedure_inspected(Database& db,
                                                               std::string_view machine_class,
                                                               std::string_view procedure);
// When a person last held a key or a lock in a lockout of this class; 0: never.
Result<std::int64_t> procedure_used_ms(Database& db, std::string_view machine_class,
                                       std::string_view person);
// When anybody last shut a machine of this class down for a full lockout; 0: never.
Result<std::int64_t> procedure_last_used_ms(Database& db, std::string_view machine_class);
// When reaching in alone was last assessed in writing for a class; 0: never.
Result<std::int64_t> arm_alone_assessed_ms(Database& db, std::string_view machine_class);
// When a rinse was left for the day shift; 0: none is waiting.
Result<std::int64_t> rinse_left_ms(Database& db, std::string_view machine);

}  // namespace holdpin
