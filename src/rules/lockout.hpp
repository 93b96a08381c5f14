// One lockout as a value, and the one function that moves it: a state and an event in, the next
// state or a refusal with its reason out. No clock, no screen; whoever calls it, a step out of
// order is refused (29 CFR 1910.147(d), (e), (f), read in a secondary copy).
// The order of the props follows common practice, no source: they go in before anybody locks, and
// are stowed only after every lock is off and the hopper was lifted just clear of them.
// It guarantees: nobody works with a prop or a lock missing, a lock comes off by its owner or, in
// absence, by two others, and only `close` by the key holder ends the hold of the machine.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/local_time.hpp"
#include "base/result.hpp"
#include "content_types/content.hpp"

namespace holdpin {

// What goes into the raised part. `nothing` and `arm` are the rinse; `me` is the full lockout.
enum class LockoutJob { nothing, arm, me };

enum class LockoutStep {
    reviewing,  // the procedure is read first, where nobody has used it for a year
    shutdown,
    propping,
    isolating,
    tagging,  // one more measure at each source that takes no lock
    locking,
    relieving,
    trying,
    working,
    leaving,  // a look was missed, or something moved: everybody leaves the zone
    looking,  // everybody is out; the support is looked at again
    testing,  // locks off for a test run, which ends with everything applied again
    unlocking,
    lift_off,
    engine_off,
    unprop,
    closing,
    closed,
};
inline constexpr int kLockoutStepCount = 18;

enum class LockoutDeed {
    shut_down,
    set_prop,
    see_prop,
    isolate,
    place_lock,
    relieve,
    try_out,
    reverify,
    miss,  // the kiosk: the time to look again has passed
    leave_zone,
    begin_test,
    end_test,
    clear,  // tools, guards and people: the work, or the attempt, is over
    remove_lock,
    remove_for_absent,
    hand_over,
    lift_off,
    stop_engine,
    stow_prop,
    close,
    review,
    take_measure,
    tell,  // host and visitor have told each other their procedures
    report_prop,  // one is bent, cracked, home-made or missing
};
inline constexpr int kLockoutDeedCount = 24;

// What this lockout demands; taken from the class when it is opened, and unchanged after that.
struct LockoutPlan {
    std::vector<std::string> sources;  // every one is isolated
    std::vector<std::string> stored;   // of these: seen to be relieved or restrained
    std::vector<std::string> props;    // every one is set
    std::vector<std::string> tags;     // sources that take a tag only: one more measure at each
    bool locks = true;                 // personal locks and a try-out
    bool second = true;                // a second person looks at each prop
    int reverify_minutes = 0;          // 0: nothing can creep
    bool review = false;               // the procedure is read before it is used
    bool operator==(const LockoutPlan&) const = default;
};

struct Lock {
    std::string device;
    std::int64_t placed_ms = 0;
    bool operator==(const Lock&) const = default;
};

struct Lockout {
    std::string machine;
    LockoutJob job = LockoutJob::me;
    LockoutPlan plan;
    LockoutStep step = LockoutStep::shutdown;
    std::string lead;  // the key holder, who is responsible for the group
    std::set<std::string> isolated;
    std::set<std::string> measured;  // of `plan.tags`
    std::set<std::string> relieved;
    std::set<std::string> told;  // visitors: each with the site, about the procedures of both
    std::map<std::string, std::string> set_by;   // prop -> person; until it is stowed
    std::map<std::string, std::string> seen_by;  // prop -> second person
    std::map<std::string, Lock> locks;           // by person
    std::int64_t opened_ms = 0;
    std::int64_t verified_ms = 0;  // last time everything was seen to hold; begin of a test run
    bool moved = false;            // a support was found to have moved
    std::set<std::string> damaged; // props that were reported: only the way out is left
    bool operator==(const Lockout&) const = default;
};

struct LockoutEvent {
    LockoutDeed deed = LockoutDeed::shut_down;
    std::string by;      // empty: the kiosk itself
    std::string second;  // the other of two people: who takes over, who removes along
    std::string item;    // prop, source, or the number of a lock
    std::string owner;   // whose lock is taken off in absence
    std::set<std::string> visitors;  // of `by` and `second`: who belongs to another employer
    std::vector<std::string> items;  // ticked statements
    std::optional<int> seen;  // people seen outside, of those who were in; whoever counts included
    bool fine = true;    // of a look or a try
    std::int64_t at_ms = 0;
};

// Statements without which a work is not cleared and an absent owner's lock stays on.
inline constexpr std::array<std::string_view, 3> kClearItems{"tools", "guards", "people"};
inline constexpr std::array<std::string_view, 3> kAbsentItems{"not-here", "tried-to-reach",
                                                             "will-be-told"};
// What both have said before a visitor does anything in a lockout.
inline constexpr std::array<std::string_view, 3> kTellItems{"site", "visitor", "restrictions"};
inline constexpr std::string_view kVisitor = "visitor";  // the mark of such people, an endorsement
inline constexpr int kInspectionMonths = 12;  // 1910.147(c)(6)(i), from memory
inline constexpr int kTestRunMinutes = 15;  // site rule: a test run is not left hanging

// `assessed`: a competent person's written assessment lets one person reach in alone.
LockoutPlan plan_of(const MachineClass& machine_class, LockoutJob job, bool assessed);

// Belongs to another employer, who has procedures of its own.
bool is_visitor(const Person& person);

// Whether the procedure is read before it is used: where nobody has used or inspected it for a
// year, or ever (WAC 296-803-700, a note).
bool is_review_due(const std::optional<Date>& last_used, Date today);

struct LockoutOpening {
    std::string machine;
    LockoutJob job = LockoutJob::me;
    LockoutPlan plan;
    std::string by;
    std::int64_t at_ms = 0;
};
Lockout opened(const LockoutOpening& opening);

// Error: refused, with what stands against it.
Result<Lockout> apply(const Lockout& state, const LockoutEvent& event);

// Until when somebody must look again, or the test run must end; 0: no time runs.
std::int64_t due_ms(const Lockout& state);
// Whether the time to look again has passed, or cannot be told as the clock stands before the last
// look.
bool is_look_missed(const Lockout& state, std::int64_t now_ms);
// The machine is held in every state but the last.
inline bool holds_machine(const Lockout& state) { return state.step != LockoutStep::closed; }
// Whom to see outside before the zone counts as cleared: the key holder, and whose lock is on.
std::set<std::string> people_on(const Lockout& state);
// What has to be done next at each kind of item; empty: nothing is left of it.
std::string next_prop(const Lockout& state);      // to be set
std::string next_unseen(const Lockout& state);    // to be looked at by the second person
std::string next_source(const Lockout& state);    // to be isolated
std::string next_measure(const Lockout& state);   // tag only: to be taken
std::string next_stored(const Lockout& state);    // to be seen relieved
std::string next_to_stow(const Lockout& state);

std::string_view name_of(LockoutJob job);
std::string_view name_of(LockoutStep step);
std::string_view name_of(LockoutDeed deed);
std::optional<LockoutJob> lockout_job_named(std::string_view name);
std::optional<LockoutStep> lockout_step_named(std::string_view name);

}  // namespace holdpin
