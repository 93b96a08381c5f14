// Zone facts: IANA time zone database, rules "US": forward on 8 March 2026, back on 1 November
// 2026, each at 02:00. A shift of eight wall-clock hours over 02:00 is then seven or nine hours.
// One examination for each shift: 1910.178(q)(7), quoted in an OSHA interpretation of 3 March 2005.
#include "rules/shifts.hpp"

#include <doctest/doctest.h>

#include <map>
#include <set>

using namespace holdpin;

namespace {

constexpr std::int64_t kShiftMinute = 60'000;
constexpr std::int64_t kHour = 3'600'000;

Shift shift(const char* id, int start_min, int end_min) {
    Shift made;
    made.id = id;
    made.start_min = start_min;
    made.end_min = end_min;
    return made;
}

std::vector<Shift> three_shifts() {
    return {shift("day", 6 * 60, 14 * 60), shift("late", 14 * 60, 22 * 60),
            shift("night", 22 * 60, 6 * 60)};
}

Zone chicago() {
    auto zone = Zone::load("America/Chicago");
    REQUIRE(zone.ok());
    return std::move(zone).value();
}

// The windows met on the way through `days` days from 06:00 of `from`, in order, minute by minute.
std::vector<ShiftWindow> walked(const std::vector<Shift>& shifts, const Zone& zone, Date from,
                                int days) {
    std::vector<ShiftWindow> met;
    const std::int64_t end = zone.instant(add_days(from, days), 360);
    for (std::int64_t at = zone.instant(from, 360); at < end; at += kShiftMinute) {
        const auto window = shift_at(shifts, zone, at);
        REQUIRE(window.has_value());
        REQUIRE(window->start_ms <= at);
        REQUIRE(at < window->end_ms);
        if (met.empty() || met.back().start_ms != window->start_ms) met.push_back(*window);
    }
    return met;
}

// Three a day without gap or overlap; every one of eight hours but the night of `change`.
void check_week(Date from, Date change, std::int64_t hours_of_change) {
    const auto met = walked(three_shifts(), chicago(), from, 7);
    REQUIRE(met.size() == 21);
    std::map<std::string, std::set<std::string>> by_date;
    for (std::size_t i = 0; i < met.size(); ++i) {
        INFO(met[i].id, " of ", iso_date(met[i].date));
        by_date[iso_date(met[i].date)].insert(met[i].id);
        const bool changes = met[i].id == "night" && met[i].date == change;
        CHECK((met[i].end_ms - met[i].start_ms) / kHour == (changes ? hours_of_change : 8));
        if (i > 0) CHECK(met[i].start_ms == met[i - 1].end_ms);
    }
    REQUIRE(by_date.size() == 7);
    for (const auto& [date, ids] : by_date) {
        INFO(date);
        CHECK(ids == std::set<std::string>{"day", "late", "night"});
    }
}

}  // namespace

TEST_CASE("three shifts a day over the clock change of spring, and a night of seven hours") {
    check_week({2026, 3, 5}, {2026, 3, 7}, 7);
}

TEST_CASE("three shifts a day over the clock change of autumn, and a night of nine hours") {
    check_week({2026, 10, 29}, {2026, 10, 31}, 9);
}

TEST_CASE("a shift begins at its minute and ends before the minute of the next") {
    const Zone zone = chicago();
    const Date day{2026, 11, 25};
    const auto id_at = [&](std::int64_t at) { return shift_at(three_shifts(), zone, at)->id; };
    CHECK(id_at(zone.instant(day, 360)) == "day");
    CHECK(id_at(zone.instant(day, 840) - 1) == "day");
    CHECK(id_at(zone.instant(day, 840)) == "late");
    CHECK(id_at(zone.instant(day, 360) - 1) == "night");
}

TEST_CASE("a night shift belongs to the date on which it starts") {
    const Zone zone = chicago();
    const auto window = shift_at(three_shifts(), zone, zone.instant({2026, 11, 26}, 180));
    REQUIRE(window.has_value());
    CHECK(iso_date(window->date) == "2026-11-25");
    CHECK(window->start_ms == zone.instant({2026, 11, 25}, 22 * 60));
    CHECK(window->end_ms == zone.instant({2026, 11, 26}, 6 * 60));
}

TEST_CASE("where the site does not work there is no shift") {
    const Zone zone = chicago();
    const std::vector<Shift> one{shift("day", 6 * 60, 14 * 60)};
    CHECK_FALSE(shift_at(one, zone, zone.instant({2026, 11, 25}, 359)).has_value());
    CHECK(shift_at(one, zone, zone.instant({2026, 11, 25}, 360)).has_value());
    CHECK_FALSE(shift_at(one, zone, zone.instant({2026, 11, 25}, 840)).has_value());
    CHECK_FALSE(shift_at({}, zone, zone.instant({2026, 11, 25}, 360)).has_value());
}

TEST_CASE("a shift may end at midnight or last the whole day") {
    const Zone zone = chicago();
    const Date day{2026, 11, 25};
    const std::vector<Shift> evening{shift("evening", 16 * 60, 1440)};
    const auto window = shift_at(evening, zone, zone.instant(day, 1439));
    REQUIRE(window.has_value());
    CHECK(window->end_ms == zone.instant(add_days(day, 1), 0));
    CHECK_FALSE(shift_at(evening, zone, window->end_ms).has_value());

    const std::vector<Shift> whole{shift("all", 6 * 60, 6 * 60)};
    CHECK(walked(whole, zone, day, 3).size() == 3);
}

TEST_CASE("a change of shift in the hour that is skipped or repeated leaves no gap") {
    const Zone zone = chicago();
    const std::vector<Shift> shifts{shift("long", 2 * 60 + 30, 1 * 60 + 30),
                                    shift("short", 1 * 60 + 30, 2 * 60 + 30)};
    for (const Date day : {Date{2026, 3, 7}, Date{2026, 10, 31}}) {
        const auto met = walked(shifts, zone, day, 3);
        for (std::size_t i = 1; i < met.size(); ++i) {
            CHECK(met[i].start_ms == met[i - 1].end_ms);
        }
    }
}
