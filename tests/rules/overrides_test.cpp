// Two people, a reason and an end: site rule. Never for defects that must take a truck out of
// service: 1910.178(p)(1) and (p)(4), read in a secondary copy.
#include "rules/overrides.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

namespace {

constexpr std::int64_t kAskedAt = 1'795'608'000'000;
constexpr std::int64_t kOverrideHour = 3'600'000;

OverrideRequest good() {
    OverrideRequest request;
    request.code = HoldCode::service_overdue;
    request.first = "ana";
    request.second = "ben";
    request.first_entitled = true;
    request.second_entitled = true;
    request.reason = "The mechanic comes at noon";
    request.now_ms = kAskedAt;
    request.until_ms = kAskedAt + 4 * kOverrideHour;
    return request;
}

OverrideRefusal answer(const OverrideRequest& request, bool overridable = true) {
    HoldRule rule;
    rule.code = name_of(request.code);
    rule.overridable = overridable;
    return refusal_of(request, rule, SitePolicy());
}

}  // namespace

TEST_CASE("two entitled people with a reason and an end may override what the content names") {
    CHECK(answer(good()) == OverrideRefusal::none);
}

TEST_CASE("what the content does not name has no override") {
    CHECK(answer(good(), false) == OverrideRefusal::never);
}

TEST_CASE("most codes have no override, even if the content says so") {
    for (std::size_t i = 0; i < kHoldCount; ++i) {
        OverrideRequest request = good();
        request.code = static_cast<HoldCode>(i);
        const bool can = request.code == HoldCode::service_overdue ||
                         request.code == HoldCode::inspection_overdue ||
                         request.code == HoldCode::not_returned;
        INFO(name_of(request.code));
        CHECK(can_ever_override(request.code) == can);
        CHECK(answer(request) == (can ? OverrideRefusal::none : OverrideRefusal::never));
        CHECK(answer(request, false) == OverrideRefusal::never);
    }
}

TEST_CASE("one person is not two, and nobody is nobody") {
    OverrideRequest request = good();
    request.second = request.first;
    CHECK(answer(request) == OverrideRefusal::same_person);
    request.second = "";
    CHECK(answer(request) == OverrideRefusal::same_person);
    request = good();
    request.first = "";
    CHECK(answer(request) == OverrideRefusal::same_person);
}

TEST_CASE("both must be entitled") {
    OverrideRequest request = good();
    request.first_entitled = false;
    CHECK(answer(request) == OverrideRefusal::not_entitled);
    request.second_entitled = false;
    CHECK(answer(request) == OverrideRefusal::not_entitled);
    request.first_entitled = true;
    CHECK(answer(request) == OverrideRefusal::not_entitled);
}

TEST_CASE("a reason has words") {
    OverrideRequest request = good();
    for (const char* nothing : {"", " ", "\t\n "}) {
        request.reason = nothing;
        CHECK(answer(request) == OverrideRefusal::no_reason);
    }
}

TEST_CASE("an override ends after now, and no later than the policy lets it") {
    OverrideRequest request = good();
    request.until_ms = kAskedAt;
    CHECK(answer(request) == OverrideRefusal::no_end);
    request.until_ms = kAskedAt + 1;
    CHECK(answer(request) == OverrideRefusal::none);
    request.until_ms = kAskedAt + 8 * kOverrideHour;
    CHECK(answer(request) == OverrideRefusal::none);
    request.until_ms = kAskedAt + 8 * kOverrideHour + 1;
    CHECK(answer(request) == OverrideRefusal::no_end);
}
