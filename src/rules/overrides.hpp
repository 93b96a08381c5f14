// An override lets a machine go in spite of one hold: two different people, a reason, an end.
// Only for codes that the content names, and never for LP leak, brake, steering, hopper support,
// lockout or an unqualified person (1910.178(p)(1), (p)(4), read in a secondary copy; two people:
// site rule), whatever the content says.
#pragma once

#include <string>

#include "content_types/content.hpp"
#include "rules/holds.hpp"

namespace holdpin {

struct OverrideRequest {
    HoldCode code = HoldCode::service_overdue;
    std::string first;   // person ids
    std::string second;
    bool first_entitled = false;
    bool second_entitled = false;
    std::string reason;
    std::int64_t now_ms = 0;
    std::int64_t until_ms = 0;
};

enum class OverrideRefusal {
    none,
    never,         // this kind of hold has no override
    same_person,
    not_entitled,
    no_reason,
    no_end,        // ends in the past or too late
};

bool can_ever_override(HoldCode code);
OverrideRefusal refusal_of(const OverrideRequest& request, const HoldRule& rule,
                           const SitePolicy& policy);

}  // namespace holdpin
