// The kinds of danger work that are walked through at random: who comes, what they look for, and
// which entries must have come of it.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "danger_touch.hpp"

namespace holdpin {

// A kind of danger work to walk through, and the entries without which it was not walked at all.
struct Kind {
    const char* name;
    Taste taste;
    std::vector<std::string> machines;
    std::vector<const char*> must_come;
    std::uint32_t put_right = 60;  // from outside after so many touches; 0: only at the desk
    int touches = 20'000;          // in an ordinary run
};

Kind air_alarm_kind();
Kind no_start_kind();
Kind tag_kind();
Kind exchange_kind();
Kind drain_kind();
Kind everything_kind();  // a lockout, a job elsewhere, an alarm in the room, and all the rest

}  // namespace holdpin
