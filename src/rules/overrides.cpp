#include "rules/overrides.hpp"

#include "base/text.hpp"

namespace holdpin {

bool can_ever_override(HoldCode code) {
    return code == HoldCode::service_overdue || code == HoldCode::inspection_overdue ||
           code == HoldCode::not_returned;
}

OverrideRefusal refusal_of(const OverrideRequest& request, const HoldRule& rule,
                           const SitePolicy& policy) {
    if (!rule.overridable || !can_ever_override(request.code)) return OverrideRefusal::never;
    if (request.first.empty() || request.second.empty() || request.first == request.second) {
        return OverrideRefusal::same_person;
    }
    if (!request.first_entitled || !request.second_entitled) return OverrideRefusal::not_entitled;
    if (trimmed(request.reason).empty()) return OverrideRefusal::no_reason;
    const std::int64_t latest = request.now_ms + policy.override_hours_max * 3'600'000LL;
    if (request.until_ms <= request.now_ms || request.until_ms > latest) {
        return OverrideRefusal::no_end;
    }
    return OverrideRefusal::none;
}

}  // namespace holdpin
