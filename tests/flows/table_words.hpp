// How the tables in the headers of flows write their states, events and guards.
#pragma once

#include <string>

#include "flows/air_alarm.hpp"
#include "flows/emergency.hpp"
#include "flows/findings.hpp"
#include "flows/guide.hpp"
#include "flows/lockout.hpp"
#include "flows/round.hpp"
#include "flows/tags.hpp"
#include "flows/work.hpp"

namespace holdpin {

std::string word(GuideState);
std::string word(GuideEvent);
std::string word(GuideGuard);
std::string word(RoundState);
std::string word(RoundEvent);
std::string word(RoundGuard);
std::string word(FindingStage);
std::string word(FindingEvent);
std::string word(FindingGuard);
std::string word(AlarmState);
std::string word(WorkState);
std::string word(AlarmEvent);
std::string word(WorkEvent);
std::string word(AlarmGuard);
std::string word(WorkGuard);
std::string word(TagState);
std::string word(TagEvent);
std::string word(TagGuard);
std::string word(ReportState);
std::string word(ReportEvent);
std::string word(ReportGuard);
std::string word(LockoutStep);
std::string word(LockoutDeed);
std::string word(LockoutGuard);

}  // namespace holdpin
