// The codes of everything that can hold a machine. A code is part of the ledger and of content:
// codes are added, never renamed. What a code means to people stands in rulesets/holds.toml.
#pragma once

#include <bitset>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/local_time.hpp"

namespace holdpin {

enum class HoldCode {
    not_enrolled,
    no_duty,
    topic_not_instructed,
    topic_not_practised,
    topic_not_evaluated,
    topic_lapsed,
    no_authorisation,
    condition_not_met,
    refresher_open,
    round_missing,
    round_incomplete,
    round_stale,
    round_other_person,
    round_other_content,
    stop_finding,
    limit_undecided,
    room_closed,
    room_air,   // the forecast of the room's air, with this engine
    air_alarm,  // a measured level, or an alarm, in the room
    service_overdue,
    inspection_overdue,
    lockout_on,
    machine_unknown,
    already_released,
    not_returned,
    clock_doubtful,
    ledger_doubtful,
    disk_low,
    work_running,  // a guided job has begun and is not finished
    content_changed,  // the files changed without `adopt`, and nobody entitled has looked
    hopper_up,  // a job raised it, and nothing has brought it down
};
inline constexpr std::size_t kHoldCount = 31;

// One boolean per code: set = the machine is held for that reason.
using HoldSet = std::bitset<kHoldCount>;

std::string_view name_of(HoldCode code);
std::optional<HoldCode> hold_named(std::string_view name);
inline std::size_t index_of(HoldCode code) { return static_cast<std::size_t>(code); }

// One reason, with the facts its sentence needs. What does not apply stays empty.
struct Hold {
    HoldCode code = HoldCode::machine_unknown;
    std::vector<std::string> topics;  // topic ids
    std::string person;               // who holds it
    std::string detail;               // condition id, finding text key, room id, job id
    std::int64_t entry = 0;           // the finding, release or round it comes from
    std::int64_t at_ms = 0;
    std::int64_t number = 0;  // hours in tenths, minutes
    std::int64_t limit = 0;
    std::optional<Date> date;
};

HoldSet set_of(const std::vector<Hold>& holds);

}  // namespace holdpin
