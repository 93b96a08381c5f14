#include "devices/tones.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace holdpin {
namespace {

constexpr double kLevel = 0.8 * 32'767;  // some room below the largest sample
constexpr int kRampMs = 8;
constexpr int kMsPerSecond = 1000;

constexpr std::array kLeaveZone{Tone{960, 250}, Tone{640, 250}, Tone{960, 250},
                                Tone{640, 250}, Tone{960, 250}, Tone{640, 250}};
constexpr std::array kAir{Tone{800, 120}, Tone{0, 100}, Tone{800, 120}, Tone{0, 100},
                          Tone{800, 120}, Tone{0, 100}, Tone{800, 120}};

int samples_in(int ms) { return ms * kSampleRate / kMsPerSecond; }

// 0 at both ends of a tone, 1 in between.
double ramp(int at, int count) {
    const int wide = std::max(1, std::min(samples_in(kRampMs), count / 2));
    const int from_end = std::min(at, count - 1 - at);
    return std::min(1.0, static_cast<double>(from_end) / wide);
}

void add_tone(const Tone& tone, std::vector<std::int16_t>& samples) {
    const int count = samples_in(tone.ms);
    const double step = 2 * std::numbers::pi * tone.hz / kSampleRate;
    for (int i = 0; i < count; ++i) {
        samples.push_back(
            static_cast<std::int16_t>(std::lround(kLevel * ramp(i, count) * std::sin(step * i))));
    }
}

void add_number(std::string& bytes, std::uint32_t number, int width) {
    for (int i = 0; i < width; ++i) bytes += static_cast<char>((number >> (8 * i)) & 0xFFU);
}

}  // namespace

std::span<const Tone> tones_of(Alarm alarm) {
    if (alarm == Alarm::leave_zone) return kLeaveZone;
    return kAir;
}

int alarm_ms(Alarm alarm) {
    int ms = 0;
    for (const Tone& tone : tones_of(alarm)) ms += tone.ms;
    return ms;
}

std::vector<std::int16_t> samples_of(std::span<const Tone> tones) {
    std::vector<std::int16_t> samples;
    for (const Tone& tone : tones) add_tone(tone, samples);
    return samples;
}

// The layout of a WAV file with one track of 16-bit samples, least byte first (from memory).
std::string wave_of(std::span<const std::int16_t> samples) {
    constexpr std::uint32_t kHead = 36;
    constexpr std::uint32_t kSampleBytes = 2;
    const auto length = static_cast<std::uint32_t>(samples.size()) * kSampleBytes;
    std::string bytes = "RIFF";
    add_number(bytes, kHead + length, 4);
    bytes += "WAVEfmt ";
    add_number(bytes, 16, 4);  // bytes of this part
    add_number(bytes, 1, 2);   // plain samples
    add_number(bytes, 1, 2);   // one track
    add_number(bytes, kSampleRate, 4);
    add_number(bytes, kSampleRate * kSampleBytes, 4);
    add_number(bytes, kSampleBytes, 2);
    add_number(bytes, 16, 2);  // bits
    bytes += "data";
    add_number(bytes, length, 4);
    for (const std::int16_t sample : samples) {
        add_number(bytes, static_cast<std::uint16_t>(sample), 2);
    }
    return bytes;
}

}  // namespace holdpin
