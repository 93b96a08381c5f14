// A machine and a person with nothing between them: every test of the release begins here and
// breaks what it is about. An invented scenario; nothing here is content of the pack.
#pragma once

#include "rules/release.hpp"

namespace holdpin::sample {

inline constexpr std::int64_t kMinute = 60'000;
inline constexpr std::int64_t kHour = 3'600'000;
inline constexpr std::int64_t kNow = 1'795'608'000'000;  // 2026-11-25T12:00:00Z, 06:00 in Chicago
inline constexpr std::int64_t kShiftEnd = kNow + 8 * kHour;

const Pack& pack();
const MachineClass& sweeper();  // six topics, an engine
const Person& ana();            // an operator
const Person& ana_without_duty();

// Ana, current in every topic and authorised, with a full round of hers ten minutes old.
Snapshot all_clear();

// One record, complete and evaluated on `evaluated`.
TopicRecord complete(Date evaluated);
OpenFinding finding(std::int64_t entry, Outcome outcome, Hazard hazard = Hazard::none);

// The holds a refusal names; empty for a release.
HoldSet refused(const Decision& decision);
std::string words(const HoldSet& set);

}  // namespace holdpin::sample
