// Spans of time that tests of flows count in, in milliseconds.
#pragma once

#include <cstdint>

namespace holdpin {

inline constexpr std::int64_t kMinute = 60'000;
inline constexpr std::int64_t kYearMs = 366LL * 86'400'000;  // a leap year: surely over

}  // namespace holdpin
