#include "base/clock.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

TEST_CASE("a hand clock stands still until it is told to move") {
    const HandClock clock(1'000);
    CHECK(clock.now_ms() == 1'000);
    CHECK(clock.now_ms() == 1'000);
    CHECK(clock.mono_ms() == 0);
}

TEST_CASE("time that passes moves the wall clock and the monotonic clock together") {
    HandClock clock(1'000);
    clock.pass(250);
    clock.pass(0);
    CHECK(clock.now_ms() == 1'250);
    CHECK(clock.mono_ms() == 250);
}

TEST_CASE("a wall clock that is set back leaves the monotonic clock and the boot alone") {
    HandClock clock(1'000'000);
    clock.pass(500);
    const std::string boot = clock.boot();
    clock.set_wall(10);
    CHECK(clock.now_ms() == 10);
    CHECK(clock.mono_ms() == 500);
    CHECK(clock.boot() == boot);
}

TEST_CASE("a restart is a new boot, its monotonic clock begins again and the wall clock stays") {
    HandClock clock(1'000);
    clock.pass(500);
    const std::string first = clock.boot();
    clock.reboot();
    const std::string second = clock.boot();
    clock.reboot();
    CHECK(second != first);
    CHECK(clock.boot() != second);
    CHECK(clock.boot() != first);
    CHECK(clock.mono_ms() == 0);
    CHECK(clock.now_ms() == 1'500);
}

TEST_CASE("the real clock goes on, and its boot has a short name that stays") {
    const RealClock clock;
    const std::int64_t mono = clock.mono_ms();
    CHECK(clock.mono_ms() >= mono);
    CHECK(clock.now_ms() > 1'577'836'800'000);  // 2020-01-01
    CHECK_FALSE(clock.boot().empty());
    CHECK(clock.boot().size() <= 36);
    CHECK(clock.boot() == clock.boot());
}
