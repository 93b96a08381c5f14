// Facts about zones come from the IANA time zone database (tzdata), rules "US" from 2007 on:
// clocks go forward on the second Sunday of March and back on the first Sunday of November, at
// 02:00 of the wall clock; Asia/Kathmandu is at +05:45 and Asia/Tokyo at +09:00 all year.
#include "base/local_time.hpp"

#include <doctest/doctest.h>

#include <string>

using namespace holdpin;

namespace {

constexpr std::int64_t kSecond = 1000;
constexpr std::int64_t kHour = 3'600'000;
constexpr std::int64_t kForward = 1'772'956'800'000;  // 2026-03-08T08:00:00Z, 02:00 CST
constexpr std::int64_t kBack = 1'793'516'400'000;     // 2026-11-01T07:00:00Z, 02:00 CDT

Zone zone(const char* name) {
    auto loaded = Zone::load(name);
    REQUIRE(loaded.ok());
    return std::move(loaded).value();
}

std::string shown(const Zone& where, std::int64_t utc_ms) {
    return local_text(where.local(utc_ms));
}

}  // namespace

TEST_CASE("a zone that is not in the database is named, and so is a way to write one") {
    const auto absent = Zone::load("America/Nowhere");
    REQUIRE_FALSE(absent.ok());
    CHECK(absent.error().kind == ErrorKind::absent);
    CHECK(absent.error().what.find("America/Nowhere") != std::string::npos);
    CHECK_FALSE(absent.error().mend.empty());
    CHECK(zone("Europe/Madrid").name() == "Europe/Madrid");
}

TEST_CASE("Chicago goes from 01:59:59 to 03:00:00 on 8 March 2026") {
    const Zone chicago = zone("America/Chicago");
    CHECK(shown(chicago, kForward - kSecond) == "2026-03-08T01:59:59-06:00");
    CHECK(shown(chicago, kForward - 1) == "2026-03-08T01:59:59-06:00");
    CHECK(shown(chicago, kForward) == "2026-03-08T03:00:00-05:00");
}

TEST_CASE("Chicago goes from 01:59:59 back to 01:00:00 on 1 November 2026") {
    const Zone chicago = zone("America/Chicago");
    CHECK(shown(chicago, kBack - kSecond) == "2026-11-01T01:59:59-05:00");
    CHECK(shown(chicago, kBack) == "2026-11-01T01:00:00-06:00");
    CHECK(shown(chicago, kBack + kHour) == "2026-11-01T02:00:00-06:00");
}

TEST_CASE("a wall time that is skipped counts as the instant of the change") {
    const Zone chicago = zone("America/Chicago");
    const Date day{2026, 3, 8};
    CHECK(chicago.instant(day, 119) == kForward - 60 * kSecond);
    for (const int minute : {120, 121, 150, 179, 180}) {
        CHECK(chicago.instant(day, minute) == kForward);
    }
    CHECK(chicago.instant(day, 181) == kForward + 60 * kSecond);
}

TEST_CASE("a wall time that occurs twice counts as the first") {
    const Zone chicago = zone("America/Chicago");
    const Date day{2026, 11, 1};
    CHECK(chicago.instant(day, 60) == kBack - kHour);
    CHECK(chicago.instant(day, 90) == kBack - kHour / 2);
    CHECK(chicago.instant(day, 119) == kBack - 60 * kSecond);
    CHECK(chicago.instant(day, 120) == kBack + kHour);  // 02:00 occurs once, in winter time
}

TEST_CASE("a day of a clock change has 23 or 25 hours, from midnight to midnight") {
    const Zone chicago = zone("America/Chicago");
    const auto hours = [&](Date day) {
        return (chicago.instant(day, 1440) - chicago.instant(day, 0)) / kHour;
    };
    CHECK(hours({2026, 3, 8}) == 23);
    CHECK(hours({2026, 11, 1}) == 25);
    CHECK(hours({2026, 11, 25}) == 24);
    CHECK(chicago.instant({2026, 3, 8}, 1440) == chicago.instant({2026, 3, 9}, 0));
}

TEST_CASE("an Asian zone with quarters of an hour and no clock change is kept to the minute") {
    const Zone kathmandu = zone("Asia/Kathmandu");
    const Zone tokyo = zone("Asia/Tokyo");
    CHECK(shown(kathmandu, kForward) == "2026-03-08T13:45:00+05:45");
    CHECK(shown(tokyo, kForward) == "2026-03-08T17:00:00+09:00");
    for (int day = 0; day < 365; ++day) {
        const Date date = add_days({2026, 1, 1}, day);
        CHECK(kathmandu.instant(date, 345) == day_number(date) * 86'400'000);
        CHECK(tokyo.instant(date, 540) == day_number(date) * 86'400'000);
    }
}

TEST_CASE("every minute of a year comes back from its wall time, but for the hour that repeats") {
    const Zone chicago = zone("America/Chicago");
    const std::int64_t from = chicago.instant({2026, 1, 1}, 0);
    const std::int64_t to = chicago.instant({2027, 1, 1}, 0);
    std::int64_t late = 0;
    for (std::int64_t at = from; at < to; at += 15 * 60 * kSecond) {
        const LocalTime local = chicago.local(at);
        const std::int64_t back = chicago.instant(local.date, local.minute);
        if (back != at) {
            CHECK(back == at - kHour);
            ++late;
        }
    }
    CHECK(late == 4);  // the quarters of the second 01:00 to 02:00
}

TEST_CASE("weekdays count from Monday, also before 1970") {
    const Zone utc = zone("Etc/UTC");
    CHECK(utc.local(0).weekday == 3);  // 1 January 1970 was a Thursday
    CHECK(utc.local(-1).weekday == 2);
    CHECK(utc.local(1'795'606'812'345).weekday == 2);  // 25 November 2026, a Wednesday
    CHECK(utc.local(kBack).weekday == 6);
    CHECK(shown(utc, -1) == "1969-12-31T23:59:59+00:00");
}

TEST_CASE("days are numbered from 1970 and come back from their number") {
    CHECK(day_number({1970, 1, 1}) == 0);
    CHECK(day_number({2000, 3, 1}) == 11'017);
    CHECK(day_number({2026, 11, 25}) == 20'782);
    CHECK(day_number({1900, 3, 1}) == -25'508);
    Date before = date_of_day(-30'000);
    for (std::int64_t n = -29'999; n < 60'000; ++n) {
        const Date date = date_of_day(n);
        REQUIRE(day_number(date) == n);
        REQUIRE(before < date);
        before = date;
    }
}

TEST_CASE("the 29th of February and other last days become the last day of a shorter month") {
    CHECK(iso_date(add_months({2024, 2, 29}, 36)) == "2027-02-28");
    CHECK(iso_date(add_months({2024, 2, 29}, 12)) == "2025-02-28");
    CHECK(iso_date(add_months({2024, 2, 29}, 48)) == "2028-02-29");
    CHECK(iso_date(add_months({2023, 2, 28}, 12)) == "2024-02-28");  // no day is added
    CHECK(iso_date(add_months({2026, 1, 31}, 1)) == "2026-02-28");
    CHECK(iso_date(add_months({2026, 8, 31}, 1)) == "2026-09-30");
    CHECK(iso_date(add_months({2026, 12, 31}, 2)) == "2027-02-28");
    CHECK(iso_date(add_months({2026, 1, 15}, -1)) == "2025-12-15");
    CHECK(iso_date(add_months({2026, 3, 31}, -13)) == "2025-02-28");
}

TEST_CASE("months added give a real day, never a later one than began") {
    for (std::int64_t n = day_number({2023, 1, 1}); n <= day_number({2028, 12, 31}); ++n) {
        const Date from = date_of_day(n);
        for (const int months : {0, 1, 11, 12, 36}) {
            const Date to = add_months(from, months);
            REQUIRE(is_real_date(to));
            REQUIRE(to.year * 12 + to.month == from.year * 12 + from.month + months);
            REQUIRE(to.day <= from.day);
            REQUIRE((to.day == from.day || to.day >= 28));
        }
    }
}

TEST_CASE("days added pass over months, years and the leap day") {
    CHECK(iso_date(add_days({2026, 12, 31}, 1)) == "2027-01-01");
    CHECK(iso_date(add_days({2024, 2, 28}, 1)) == "2024-02-29");
    CHECK(iso_date(add_days({2026, 3, 1}, -1)) == "2026-02-28");
}

TEST_CASE("only days of the calendar are real") {
    CHECK(is_real_date({2024, 2, 29}));
    CHECK_FALSE(is_real_date({2026, 2, 29}));
    CHECK_FALSE(is_real_date({1900, 2, 29}));
    CHECK(is_real_date({2000, 2, 29}));
    for (const Date date :
         {Date{2026, 0, 1}, Date{2026, 13, 1}, Date{2026, 1, 0}, Date{2026, 4, 31},
          Date{2026, -1, 1}, Date{2026, 257, 1}, Date{2026, 1, 257}}) {
        CHECK_FALSE(is_real_date(date));
    }
}

TEST_CASE("dates are read as they are written") {
    for (const char* text : {"2026-11-25", "2024-02-29", "1970-01-01"}) {
        const auto date = parse_date(text);
        REQUIRE(date.ok());
        CHECK(iso_date(date.value()) == text);
    }
    for (const char* text :
         {"", "2026-2-29", "2026-02-29", "2026-13-01", "2026/11/25", "26-11-25", "2026-11-25 ",
          "2026-11-2x", "-026-11-25", "2026-11--1", "+026-11-25"}) {
        INFO(std::string(text));
        CHECK_FALSE(parse_date(text).ok());
    }
}

TEST_CASE("times of day are read to the minute, and 24:00 is the end of the day") {
    CHECK(parse_minute("00:00").value_or(-1) == 0);
    CHECK(parse_minute("06:05").value_or(-1) == 365);
    CHECK(parse_minute("24:00").value_or(-1) == 1440);
    for (const char* text : {"", "6:00", "24:01", "25:00", "12:60", "12.00", "-1:30", "-0:30",
                             "12:-0", "12:3x", "+1:00"}) {
        INFO(std::string(text));
        CHECK_FALSE(parse_minute(text).ok());
    }
    CHECK(clock_text(340) == "05:40");
    CHECK(clock_text(1440) == "00:00");
}

TEST_CASE("an instant is written in universal time with its milliseconds") {
    CHECK(utc_text(1'795'606'812'345) == "2026-11-25T11:40:12.345Z");
    CHECK(utc_text(0) == "1970-01-01T00:00:00.000Z");
    CHECK(utc_text(-1) == "1969-12-31T23:59:59.999Z");
    CHECK(utc_text(951'825'600'000) == "2000-02-29T12:00:00.000Z");
}
