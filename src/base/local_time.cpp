#include "base/local_time.hpp"

#include <date/tz.h>
#include <fmt/compile.h>
#include <fmt/format.h>

#include <charconv>
#include <cstdlib>

namespace holdpin {
namespace {

date::local_seconds local_seconds_of(Date day, int minute_of_day) {
    return date::local_seconds{std::chrono::seconds{day_number(day) * 86400}} +
           std::chrono::minutes{minute_of_day};
}

// Digits only: from_chars alone would take a sign.
bool parse_int(std::string_view text, int& out) {
    if (text.empty() || text.front() < '0' || text.front() > '9') return false;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), out);
    return code == std::errc{} && end == text.data() + text.size();
}

}  // namespace

Result<Zone> Zone::load(std::string_view name) {
    try {
        return Zone(std::string(name), date::locate_zone(name));
    } catch (const std::exception&) {
        return Error{ErrorKind::absent, fmt::format("there is no time zone \"{}\"", name), "",
                     "use an IANA name such as America/Chicago or Europe/Madrid"};
    }
}

LocalTime Zone::local(std::int64_t utc_ms) const {
    const auto* zone = static_cast<const date::time_zone*>(zone_);
    const date::sys_seconds utc{
        std::chrono::floor<std::chrono::seconds>(std::chrono::milliseconds{utc_ms})};
    const auto info = zone->get_info(utc);
    const std::int64_t local = (utc.time_since_epoch() + info.offset).count();
    const std::int64_t day = local >= 0 ? local / 86400 : (local - 86399) / 86400;
    const auto in_day = static_cast<int>(local - day * 86400);
    LocalTime out;
    out.date = date_of_day(day);
    out.minute = in_day / 60;
    out.second = in_day % 60;
    out.weekday = static_cast<int>(((day + 3) % 7 + 7) % 7);
    out.offset_min = static_cast<int>(info.offset.count() / 60);
    return out;
}

std::int64_t Zone::instant(Date day, int minute_of_day) const {
    const auto* zone = static_cast<const date::time_zone*>(zone_);
    const auto utc = zone->to_sys(local_seconds_of(day, minute_of_day), date::choose::earliest);
    return std::chrono::duration_cast<std::chrono::milliseconds>(utc.time_since_epoch()).count();
}

std::int64_t day_number(Date day) {
    return date::sys_days{date::year{day.year} / day.month / day.day}.time_since_epoch().count();
}

Date date_of_day(std::int64_t number) {
    const date::year_month_day ymd{date::sys_days{date::days{number}}};
    return {static_cast<int>(ymd.year()), static_cast<int>(static_cast<unsigned>(ymd.month())),
            static_cast<int>(static_cast<unsigned>(ymd.day()))};
}

bool is_real_date(Date day) {
    // The library keeps months and days in a byte: larger numbers would come round again.
    if (day.month < 1 || day.month > 12 || day.day < 1 || day.day > 31) return false;
    return (date::year{day.year} / day.month / day.day).ok();
}

Date add_months(Date day, int months) {
    const int index = day.year * 12 + (day.month - 1) + months;
    const Date first{index / 12, index % 12 + 1, 1};
    const auto last = date::year{first.year} / first.month / date::last;
    const int last_day = static_cast<int>(static_cast<unsigned>(last.day()));
    return {first.year, first.month, day.day < last_day ? day.day : last_day};
}

Date add_days(Date day, int days) { return date_of_day(day_number(day) + days); }

std::string iso_date(Date day) {
    return fmt::format(FMT_COMPILE("{:04}-{:02}-{:02}"), day.year, day.month, day.day);
}

Result<Date> parse_date(std::string_view text) {
    Date day;
    if (text.size() == 10 && text[4] == '-' && text[7] == '-' &&
        parse_int(text.substr(0, 4), day.year) && parse_int(text.substr(5, 2), day.month) &&
        parse_int(text.substr(8, 2), day.day) && is_real_date(day)) {
        return day;
    }
    return Error{ErrorKind::invalid, fmt::format("\"{}\" is no date", text), "",
                 "write year-month-day, for example 2026-11-25"};
}

Result<int> parse_minute(std::string_view text) {
    int hour = 0;
    int minute = 0;
    if (text.size() == 5 && text[2] == ':' && parse_int(text.substr(0, 2), hour) &&
        parse_int(text.substr(3, 2), minute) && hour >= 0 && minute >= 0 && minute < 60 &&
        hour * 60 + minute <= 1440) {
        return hour * 60 + minute;
    }
    return Error{ErrorKind::invalid, fmt::format("\"{}\" is no time of day", text), "",
                 "write hours and minutes, for example 06:00"};
}

std::string clock_text(int minute_of_day) {
    return fmt::format(FMT_COMPILE("{:02}:{:02}"), minute_of_day / 60 % 24, minute_of_day % 60);
}

std::string utc_text(std::int64_t utc_ms) {
    const std::int64_t day = utc_ms >= 0 ? utc_ms / 86'400'000 : (utc_ms - 86'399'999) / 86'400'000;
    const std::int64_t rest = utc_ms - day * 86'400'000;
    return fmt::format(FMT_COMPILE("{}T{:02}:{:02}:{:02}.{:03}Z"), iso_date(date_of_day(day)),
                       rest / 3'600'000, rest / 60'000 % 60, rest / 1000 % 60, rest % 1000);
}

std::string local_text(const LocalTime& time) {
    const int offset = std::abs(time.offset_min);
    return fmt::format("{}T{:02}:{:02}:{:02}{}{:02}:{:02}", iso_date(time.date), time.minute / 60,
                       time.minute % 60, time.second, time.offset_min < 0 ? '-' : '+', offset / 60,
                       offset % 60);
}

}  // namespace holdpin
