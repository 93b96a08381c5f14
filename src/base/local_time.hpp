// Local time of a site. Instants are UTC milliseconds everywhere; a zone turns them into what the
// wall clock shows, with daylight saving. Zones come from the system's IANA database.
#pragma once

#include <compare>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace holdpin {

struct Date {
    int year = 1970;
    int month = 1;  // 1..12
    int day = 1;    // 1..31
    auto operator<=>(const Date&) const = default;
};

struct LocalTime {
    Date date;
    int minute = 0;      // of the day, 0..1439
    int second = 0;      // 0..59
    int weekday = 0;     // 0 Monday .. 6 Sunday
    int offset_min = 0;  // local minus UTC
};

class Zone {
  public:
    // A zone by its IANA name, for example "America/Chicago". Error: absent.
    static Result<Zone> load(std::string_view name);

    const std::string& name() const { return name_; }
    LocalTime local(std::int64_t utc_ms) const;
    // The instant of a wall time. Of a time that occurs twice, the first; a time that a clock
    // change skips counts as the instant of the change.
    std::int64_t instant(Date date, int minute_of_day) const;

  private:
    Zone(std::string name, const void* zone) : name_(std::move(name)), zone_(zone) {}
    std::string name_;
    const void* zone_;  // owned by the zone database, lives as long as the program
};

// Whole days from 1970-01-01; negative before.
std::int64_t day_number(Date date);
Date date_of_day(std::int64_t day_number);
bool is_real_date(Date date);
// The same day of a later month; 29, 30 or 31 become the last day where the month is shorter.
Date add_months(Date date, int months);
Date add_days(Date date, int days);

std::string iso_date(Date date);                               // 2026-11-25
Result<Date> parse_date(std::string_view text);                // 2026-11-25
Result<int> parse_minute(std::string_view text);               // "06:00" -> 360; "24:00" -> 1440
std::string clock_text(int minute_of_day);                     // 05:40
std::string utc_text(std::int64_t utc_ms);                     // 2026-11-25T05:40:12.345Z
std::string local_text(const LocalTime& time);                 // 2026-11-25T05:40:12-06:00

}  // namespace holdpin
