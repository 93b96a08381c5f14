// The hold codes that the hold table must explain, one row each. The rules decide when a hold
// stands; a code without words would leave an operator before a plate that says nothing.
#pragma once

#include <array>
#include <string_view>

namespace holdpin {

inline constexpr std::array<std::string_view, 31> kHoldCodes{
    "not-enrolled",         "no-duty",
    "topic-not-instructed", "topic-not-practised",
    "topic-not-evaluated",  "topic-lapsed",
    "no-authorisation",     "condition-not-met",
    "refresher-open",       "round-missing",
    "round-incomplete",     "round-stale",
    "round-other-person",   "round-other-content",
    "stop-finding",         "limit-undecided",
    "room-closed",          "room-air",
    "air-alarm",            "service-overdue",
    "inspection-overdue",   "lockout-on",
    "machine-unknown",      "already-released",
    "not-returned",         "clock-doubtful",
    "ledger-doubtful",      "disk-low",
    "work-running",         "content-changed",
    "hopper-up"};

// Holds that no two signatures lift: a lock on the machine, a person who is not qualified, a
// job that is half done.
inline constexpr std::array<std::string_view, 10> kNeverOverridden{
    "lockout-on",          "not-enrolled",        "no-duty",      "topic-not-instructed",
    "topic-not-practised", "topic-not-evaluated", "topic-lapsed", "no-authorisation",
    "work-running",        "hopper-up"};

}  // namespace holdpin
