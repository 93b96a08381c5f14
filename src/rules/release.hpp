// The release is one pure function: a snapshot in, a release or every hold out.
// No clock, no file, no prose: the same snapshot gives the same answer. It releases if and only if
// no hold is left after decisions and overrides are applied.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "content_types/content.hpp"
#include "rules/air.hpp"
#include "rules/air_alarm.hpp"
#include "rules/holds.hpp"
#include "rules/qualification.hpp"
#include "rules/shifts.hpp"

namespace holdpin {

struct Authorisation {
    std::int64_t entry = 0;
    std::vector<std::string> rooms;   // only here; empty: everywhere
    std::vector<std::string> shifts;  // only then; empty: always
};

struct OpenFinding {
    std::int64_t entry = 0;
    std::string point;
    std::string reading;
    Outcome outcome = Outcome::note;
    Hazard hazard = Hazard::none;
    std::int64_t at_ms = 0;
    std::string by;                  // empty: nobody signed on
    bool allowed = false;            // a supervisor has decided: usable within stated limits
    std::int64_t allowed_until_ms = 0;
    std::int64_t repaired = 0;       // entry of the repair, 0: none
    std::int64_t rechecked = 0;      // entry of the re-check that found it fine
    std::string text_hash;           // free text of a report or of the stated limits
};

// A round before use that was signed for the machine.
struct SignedRound {
    std::int64_t entry = 0;
    std::string person;
    std::string digest;           // of the round that was shown
    std::int64_t signed_ms = 0;
    std::int64_t shift_end_ms = 0;
    bool full = true;             // false: the short round of a takeover
    bool used = false;            // a release has followed it
    bool voided = false;          // returned with a finding, or somebody else's release since
};

struct ReleaseOut {
    std::int64_t entry = 0;
    std::string person;
    std::int64_t from_ms = 0;
    std::int64_t until_ms = 0;
    std::string room;
};

// A guided job that has begun and is neither finished nor stopped.
struct RunningWork {
    std::int64_t entry = 0;
    std::string work;
    std::string by;  // who began it
    std::int64_t opened_ms = 0;
};

struct Override {
    HoldCode code = HoldCode::service_overdue;
    std::int64_t until_ms = 0;
};

struct MachineState {
    std::string plate;
    std::int64_t hours_tenths = 0;
    std::int64_t fuel_percent = 0;
    std::int64_t service_every_tenths = 0;  // 0: none
    std::int64_t service_done_tenths = 0;
    std::optional<Date> inspection_due;
    std::vector<OpenFinding> findings;
    std::string locked_by;                  // person id; empty: no lockout
    std::int64_t locked_entry = 0;
    std::optional<SignedRound> round;       // the last one signed
    std::optional<ReleaseOut> out;          // released and not returned
    std::vector<Override> overrides;
    bool round_running = false;             // a draft of this person's round exists
    std::int64_t last_returned_ms = 0;
    std::optional<RunningWork> work;
    bool hopper_up = false;                 // a job raised it, and none has brought it down
};

struct Snapshot {
    const Person* person = nullptr;  // null: not enrolled
    TopicRecords topics;
    std::optional<Authorisation> authorisation;
    const MachineClass* machine_class = nullptr;  // null: machine unknown
    MachineState machine;
    std::string room;
    bool room_closed = false;
    std::optional<AirForecast> air;     // with this engine running too; absent: none is made
    int engines = 0;                    // counted, this one and those of joined rooms included
    int air_least_minutes = 30;         // a shorter forecast holds
    std::int64_t alarm_ms = 0;
    std::string alarm_room;             // where: wanted, home, or where the machine is out
    double alarm_ppm = -1;              // of a running alarm, 0: not measured; below 0: none stands
    AlarmCause alarm_cause = AlarmCause::reading;
    std::string round_digest;  // of the round content adopted now
    const Pack* pack = nullptr;
    SitePolicy policy;
    std::optional<ShiftWindow> shift;
    std::int64_t now_ms = 0;
    Date today;
    bool clock_ok = true;
    bool content_ok = true;
    bool ledger_ok = true;
    bool disk_ok = true;
};

struct Release {
    std::string person;
    std::string machine;
    std::string room;
    std::int64_t from_ms = 0;
    std::int64_t until_ms = 0;
    std::int64_t round_entry = 0;
    std::int64_t air_until_ms = 0;     // when the air is forecast to pass a level; 0: not
    std::vector<std::int64_t> limits;  // findings under which it may be used
    std::vector<std::string> rooms;    // conditions of the authorisation
    std::vector<std::string> shifts;
};

using Decision = std::variant<Release, std::vector<Hold>>;

// Every hold, before overrides, in the order of the lugs.
std::vector<Hold> holds_of(const Snapshot& snapshot);
// Those that no running override takes away.
std::vector<Hold> standing_holds(const Snapshot& snapshot);
// Whether a set of standing holds lets a machine go.
inline bool is_free(const HoldSet& standing) { return standing.none(); }
Decision decide_release(const Snapshot& snapshot);

// Holds of a machine that do not depend on a person: what the floor shows when nobody is signed on.
std::vector<Hold> machine_holds(const Snapshot& snapshot);

// Whether the short round of a takeover is enough: within one shift the machine was walked in full
// and nothing was found since.
bool takeover_enough(const MachineState& machine, const std::string& round_digest,
                     const std::optional<ShiftWindow>& shift);

}  // namespace holdpin
