#include "devices/meter_modbus.hpp"

#include <doctest/doctest.h>

#include <chrono>

#include "fake_meter.hpp"

using namespace holdpin;
using namespace std::chrono_literals;

namespace {

bool says(const Error& error, std::string_view words) {
    return error.sentence().find(words) != std::string::npos;
}

constexpr int kTimeoutMs = 200;
constexpr ModbusPace kQuick{kTimeoutMs, 10};

}  // namespace

TEST_CASE("a holding register times its scale is the reading, and zero is one") {
    FakeMeter meter;
    meter.hold(123);
    auto ppm = read_modbus_ppm(meter.at(0, false, 0.1), kTimeoutMs);
    REQUIRE(ppm.ok());
    CHECK(ppm.value() == doctest::Approx(12.3));
    meter.hold(0);
    ppm = read_modbus_ppm(meter.at(0), kTimeoutMs);
    REQUIRE(ppm.ok());
    CHECK(ppm.value() == 0);
}

TEST_CASE("an input register is another table") {
    FakeMeter meter;
    const auto ppm = read_modbus_ppm(meter.at(1, true), kTimeoutMs);
    REQUIRE(ppm.ok());
    CHECK(ppm.value() == 77);
}

TEST_CASE("a register that the meter does not have comes back as its exception, in words") {
    FakeMeter meter;
    const auto ppm = read_modbus_ppm(meter.at(9), kTimeoutMs);
    REQUIRE_FALSE(ppm.ok());
    CHECK(says(ppm.error(), "Illegal data address"));
    CHECK(says(ppm.error(), "look up the register"));
}

TEST_CASE("a meter that does not answer is given up after the time allowed") {
    FakeMeter meter;
    meter.answer(Answer::nothing);
    const auto begin = std::chrono::steady_clock::now();
    const auto ppm = read_modbus_ppm(meter.at(0), kTimeoutMs);
    const auto took = std::chrono::steady_clock::now() - begin;
    REQUIRE_FALSE(ppm.ok());
    CHECK(says(ppm.error(), "it gave no reading"));
    CHECK(took >= 150ms);
    CHECK(took < 5s);
}

TEST_CASE("a meter that hangs up in the middle is an error and not a zero") {
    FakeMeter meter;
    meter.answer(Answer::hang_up);
    const auto ppm = read_modbus_ppm(meter.at(0), kTimeoutMs);
    REQUIRE_FALSE(ppm.ok());
    CHECK(says(ppm.error(), "it gave no reading"));
    CHECK(says(ppm.error(), "meter at 127.0.0.1:"));
}

TEST_CASE("a port where nobody listens is told as such") {
    int port = 0;
    {
        const Listener gone;
        port = gone.port;
    }
    const auto ppm = read_modbus_ppm({"127.0.0.1", port, 1, 0, false, 1}, kTimeoutMs);
    REQUIRE_FALSE(ppm.ok());
    CHECK(says(ppm.error(), "it cannot be reached"));
}

TEST_CASE("a number below zero or the code of a fault is no level") {
    FakeMeter meter;
    for (const int raw : {0x8000, 0xFFFE, 0xFFFF}) {
        meter.hold(static_cast<std::uint16_t>(raw));
        const auto ppm = read_modbus_ppm(meter.at(0), kTimeoutMs);
        REQUIRE_FALSE(ppm.ok());
        CHECK(says(ppm.error(), "which is no level"));
    }
    meter.hold(0x7FFF);
    CHECK_FALSE(read_modbus_ppm(meter.at(0, false, 100), kTimeoutMs).ok());
}

TEST_CASE("the thread keeps the latest value with its time, and goes on after a fault") {
    FakeMeter fake;
    fake.hold(5);
    const RealClock clock;
    const std::int64_t before = clock.now_ms();
    const ModbusMeter meter(fake.at(0), kQuick, clock);
    REQUIRE(comes_true([&] { return meter.latest().value.has_value(); }));
    CHECK(meter.latest().quality == MeterState::Quality::good);
    CHECK(meter.latest().value->ppm == 5);
    CHECK(meter.latest().value->read_ms >= before);

    fake.answer(Answer::hang_up);
    REQUIRE(comes_true([&] { return meter.latest().quality == MeterState::Quality::failing; }));
    const MeterState failing = meter.latest();
    CHECK_FALSE(failing.trouble.empty());
    REQUIRE(failing.value);
    CHECK(failing.value->ppm == 5);

    fake.hold(8);
    fake.answer(Answer::registers);
    REQUIRE(comes_true([&] { return meter.latest().value->ppm == 8; }));
    CHECK(meter.latest().trouble.empty());
}

TEST_CASE("a meter is asked no more often than it should be, and ends while it sleeps") {
    FakeMeter fake;
    const RealClock clock;
    const auto begin = std::chrono::steady_clock::now();
    {
        const ModbusMeter meter(fake.at(0), {kTimeoutMs, 60'000}, clock);
        REQUIRE(comes_true([&] { return meter.latest().value.has_value(); }));
        std::this_thread::sleep_for(50ms);
        CHECK(fake.requests() == 1);
    }
    CHECK(std::chrono::steady_clock::now() - begin < 20s);
}

TEST_CASE("the twin in memory shows what it is told, and keeps its value while it fails") {
    MemoryMeter meter;
    CHECK(meter.latest().quality == MeterState::Quality::unasked);
    meter.give(0, 1000);
    CHECK(meter.latest().quality == MeterState::Quality::good);
    CHECK(meter.latest().value->ppm == 0);
    meter.fail("no answer", 2000);
    CHECK(meter.latest().quality == MeterState::Quality::failing);
    CHECK(meter.latest().trouble == "no answer");
    CHECK(meter.latest().value->read_ms == 1000);
}
