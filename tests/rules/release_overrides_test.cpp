// What an override takes away from the holds of a machine: its own code, until its end.
#include <doctest/doctest.h>

#include "all_clear.hpp"
#include "break_it.hpp"
#include "rules/overrides.hpp"

using namespace holdpin;
using namespace holdpin::sample;

namespace {

HoldSet only(HoldCode code) {
    HoldSet set;
    set.set(index_of(code));
    return set;
}

Snapshot overridden(HoldSet codes, HoldCode code, std::int64_t until_ms) {
    Snapshot s = broken(codes);
    s.machine.overrides.push_back({code, until_ms});
    return s;
}

}  // namespace

TEST_CASE("an override takes away its own code and no other, whatever else stands") {
    for (std::size_t o = 0; o < kHoldCount; ++o) {
        const auto code = static_cast<HoldCode>(o);
        for (std::size_t i = 0; i < kHoldCount; ++i) {
            HoldSet codes = only(code);
            codes.set(i);
            HoldSet expected = standing_of(codes);
            if (can_ever_override(code)) expected.reset(o);
            INFO(words(codes), " with an override of ", name_of(code));
            CHECK(refused(decide_release(overridden(codes, code, kNow + 1))) == expected);
        }
    }
}

TEST_CASE("an override ends to the millisecond") {
    for (const HoldCode code :
         {HoldCode::service_overdue, HoldCode::inspection_overdue, HoldCode::not_returned}) {
        const Snapshot runs = overridden(only(code), code, kNow + 1);
        CHECK(std::holds_alternative<Release>(decide_release(runs)));
        const Snapshot ended = overridden(only(code), code, kNow);
        CHECK(refused(decide_release(ended)) == only(code));
    }
}

TEST_CASE("stop findings, lockouts and gaps of a person stay, even if a record overrides them") {
    for (std::size_t i = 0; i < kHoldCount; ++i) {
        const auto code = static_cast<HoldCode>(i);
        if (can_ever_override(code)) continue;
        const Snapshot s = overridden(only(code), code, kShiftEnd);
        INFO(name_of(code));
        CHECK(refused(decide_release(s)) == standing_of(only(code)));
    }
}

TEST_CASE("an override is seen on the floor too, and in the holds before overrides it is not") {
    const Snapshot s =
        overridden(only(HoldCode::service_overdue), HoldCode::service_overdue, kShiftEnd);
    CHECK(machine_holds(s).empty());
    CHECK(standing_holds(s).empty());
    CHECK(set_of(holds_of(s)) == only(HoldCode::service_overdue));
}
