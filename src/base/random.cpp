#include "base/random.hpp"

#include <unistd.h>

#include <algorithm>
#include <cstdlib>

namespace holdpin {

std::uint32_t Random::below(std::uint32_t bound) {
    // Values past the last whole multiple of `bound` would favour small numbers: draw again.
    const std::uint32_t limit = UINT32_MAX - UINT32_MAX % bound;
    std::uint32_t drawn = 0;
    do {
        std::uint8_t bytes[4];
        fill(bytes);
        drawn = static_cast<std::uint32_t>(bytes[0]) | static_cast<std::uint32_t>(bytes[1]) << 8 |
                static_cast<std::uint32_t>(bytes[2]) << 16 |
                static_cast<std::uint32_t>(bytes[3]) << 24;
    } while (drawn >= limit);
    return drawn % bound;
}

void SystemRandom::fill(std::span<std::uint8_t> bytes) {
    constexpr std::size_t kMostPerCall = 256;  // getentropy refuses more
    for (std::size_t at = 0; at < bytes.size(); at += kMostPerCall) {
        const std::size_t count = std::min(kMostPerCall, bytes.size() - at);
        if (getentropy(bytes.data() + at, count) != 0) {
            std::abort();
        }
    }
}

std::uint64_t SeededRandom::next() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

void SeededRandom::fill(std::span<std::uint8_t> bytes) {
    for (auto& byte : bytes) {
        byte = static_cast<std::uint8_t>(next() >> 56);
    }
}

}  // namespace holdpin
