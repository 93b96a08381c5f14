// How far the long tests go: all the way with HOLDPIN_LONG; a part of the way with HOLDPIN_PART,
// which the sanitized run sets: there it counts which code is touched, not how often.
#pragma once

#include <cstdlib>

namespace holdpin {

inline bool goes_all_the_way() { return std::getenv("HOLDPIN_LONG") != nullptr; }
inline bool goes_a_part() {
    return !goes_all_the_way() && std::getenv("HOLDPIN_PART") != nullptr;
}

inline constexpr int kPart = 5;  // one of so many is looked at in such a run

// So many are made.
inline int as_many(int ordinary, int all) {
    if (goes_all_the_way()) return all;
    return goes_a_part() ? ordinary / kPart : ordinary;
}
// One of so many that could be is made.
inline int one_of(int ordinary) {
    if (goes_all_the_way()) return 1;
    return goes_a_part() ? ordinary * kPart : ordinary;
}

}  // namespace holdpin
