// Due dates as iCalendar (RFC 5545), to be taken into any calendar: CRLF, lines folded at 75
// octets, texts escaped, stable UIDs, so that a newer binder replaces what an older one brought.
#pragma once

#include <string>
#include <vector>

#include "binder/currency.hpp"

namespace holdpin {

struct CalendarPlace {
    std::string kiosk;        // id, part of every UID
    std::int64_t now_ms = 0;  // when the calendar was made
};
std::string calendar_text(const std::vector<DueDate>& due, const CalendarPlace& place);

}  // namespace holdpin
