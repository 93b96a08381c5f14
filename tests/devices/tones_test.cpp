#include "devices/tones.hpp"

#include <doctest/doctest.h>

#include <cstdlib>

using namespace holdpin;

TEST_SUITE("devices") {
TEST_CASE("an alarm is as long as its tones, begins and ends in silence, and never clips") {
    for (const Alarm alarm : {Alarm::leave_zone, Alarm::air}) {
        const auto samples = samples_of(tones_of(alarm));
        CHECK(samples.size() == static_cast<std::size_t>(alarm_ms(alarm)) * kSampleRate / 1000);
        CHECK(samples.front() == 0);
        CHECK(std::abs(samples.back()) < 400);
        int loudest = 0;
        int jump = 0;
        for (std::size_t i = 1; i < samples.size(); ++i) {
            loudest = std::max(loudest, std::abs(int{samples[i]}));
            jump = std::max(jump, std::abs(samples[i] - samples[i - 1]));
        }
        CHECK(loudest > 26'000);
        CHECK(loudest < 32'767);
        CHECK(jump < 4'000);  // no crack: a sine of 960 Hz at this rate moves less
    }
}

TEST_CASE("an alarm ends before it is asked for again") {
    CHECK(alarm_ms(Alarm::leave_zone) < 2'000);
    CHECK(alarm_ms(Alarm::air) < 5'000);
}

TEST_CASE("a WAV file says how long it is and holds the samples") {
    const auto samples = samples_of(tones_of(Alarm::air));
    const std::string wave = wave_of(samples);
    CHECK(wave.size() == 44 + samples.size() * 2);
    CHECK(wave.substr(0, 4) == "RIFF");
    CHECK(wave.substr(8, 8) == "WAVEfmt ");
    CHECK(wave.substr(36, 4) == "data");
}
}
