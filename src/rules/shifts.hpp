// Which shift an instant belongs to. Shifts are wall-clock times of the site, so that a shift over
// a clock change is an hour longer or shorter, as people work it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/local_time.hpp"
#include "content_types/content.hpp"

namespace holdpin {

struct ShiftWindow {
    std::string id;
    std::int64_t start_ms = 0;  // UTC
    std::int64_t end_ms = 0;    // UTC, not included
    Date date;                  // local date on which it starts
};

// The shift running at `now_ms`; absent where the site does not work at that time.
std::optional<ShiftWindow> shift_at(const std::vector<Shift>& shifts, const Zone& zone,
                                    std::int64_t now_ms);

}  // namespace holdpin
