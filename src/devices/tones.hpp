// What the kiosk's alarms sound like, as samples worked out here: sine tones with short ramps, so
// that a loudspeaker does not crack. How loud they are is set at the loudspeaker, once, so that
// they are heard over the running shop (15 dB above it: ISO 7731, value from memory).
// Two alarms, told apart by ear: "leave the zone" is high and low in turn; air is four short ones
// and a pause (the pattern of carbon monoxide alarms, from memory).
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace holdpin {

enum class Alarm { leave_zone, air };
inline constexpr int kAlarmCount = 2;

inline constexpr int kSampleRate = 44'100;  // mono, 16 bits

struct Tone {
    double hz = 0;  // 0: silence
    int ms = 0;
};
std::span<const Tone> tones_of(Alarm alarm);
// How long it takes once.
int alarm_ms(Alarm alarm);
std::vector<std::int16_t> samples_of(std::span<const Tone> tones);
// The bytes of a WAV file.
std::string wave_of(std::span<const std::int16_t> samples);

}  // namespace holdpin
