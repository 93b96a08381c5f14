// How far the long tests go: all the way with HOLDPIN_LONG; a part of the way with HOLDPIN_PART,
// which the sanitized run sets: there it counts which code is touched, not how often.
#pragma once

#include <cstddef>
#include <cstdlib>

namespace holdpin {

inline bool goes_all_the_way() { return std::getenv("HOLDPIN_LONG") != nullptr; }
inline bool goes_a_part() {
    return !goes_all_the_way() && std::getenv("HOLDPIN_PART") != nullptr;
}
// One of so many is looked at in such a run.
inline constexpr std::size_t kPart = 4;

}  // namespace holdpin
