#include "rules/air_alarm.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace holdpin;

namespace {

constexpr std::int64_t kMin = 60'000;
constexpr std::int64_t kDue = 1'795'608'300'000;

ShiftWindow early() { return {"early", kDue, kDue + 480 * kMin, Date{2026, 11, 25}}; }

MidShift due() { return {early(), kDue + 240 * kMin, true, true, false, false}; }

// 9,000 m³ with 12,000 m³/h, and a door that gives 6,000 more.
Room hall() {
    Room room;
    room.id = "hall";
    room.volume_m3 = 9000;
    room.airflow_m3h = 12'000;
    Door gate;
    gate.id = "gate";
    gate.airflow_m3h = 6000;
    room.doors = {gate};
    return room;
}

AiringQuestion airing(const Room& room) {
    AiringQuestion question;
    question.room = &room;
    question.from_ppm = 210;
    question.since_ms = kDue;
    question.now_ms = kDue;
    return question;
}

}  // namespace

TEST_CASE("two people ill in one room within the window are an alarm, one is none") {
    CHECK_FALSE(is_alarm(ill_within({}, 60, kDue)));
    CHECK_FALSE(is_alarm(ill_within({{kDue, 1}}, 60, kDue)));
    CHECK(is_alarm(ill_within({{kDue, 2}}, 60, kDue)));
    CHECK(is_alarm(ill_within({{kDue - 60 * kMin, 1}, {kDue, 1}}, 60, kDue)));
}

TEST_CASE("a report older than the window counts no more, nor does one from the future") {
    CHECK(ill_within({{kDue - 60 * kMin - 1, 2}, {kDue, 1}}, 60, kDue) == 1);
    CHECK(ill_within({{kDue - 20 * kMin, 1}, {kDue, 1}}, 15, kDue) == 1);
    // The clock was set back between two reports.
    CHECK(ill_within({{kDue + 60 * kMin, 1}, {kDue, 1}}, 60, kDue) == 2);
    CHECK(ill_within({{kDue + 60 * kMin + 1, 2}}, 60, kDue) == 0);
}

TEST_CASE("people are asked from the middle of the shift to its end") {
    CHECK(is_time_to_ask(due()));
    MidShift question = due();
    question.now_ms -= 1;
    CHECK_FALSE(is_time_to_ask(question));
    question.now_ms = early().end_ms - 1;
    CHECK(is_time_to_ask(question));
    question.now_ms = early().end_ms;
    CHECK_FALSE(is_time_to_ask(question));
    question.shift.reset();
    CHECK_FALSE(is_time_to_ask(question));
}

TEST_CASE("people are asked once, with an engine out, in a shut room, and not in an alarm") {
    for (bool MidShift::*member : {&MidShift::asked, &MidShift::alarm}) {
        MidShift question = due();
        question.*member = true;
        CHECK_FALSE(is_time_to_ask(question));
    }
    for (bool MidShift::*member : {&MidShift::engine_out, &MidShift::shut}) {
        MidShift question = due();
        question.*member = false;
        CHECK_FALSE(is_time_to_ask(question));
    }
}

TEST_CASE("only a measured reading below the level, counted heads and the right end an alarm") {
    CHECK(judge_lift({34.9, 35, true, true, true}) == LiftRefusal::none);
    CHECK(judge_lift({0, 35, true, true, true}) == LiftRefusal::none);
    CHECK(judge_lift({35, 35, true, true, true}) == LiftRefusal::not_below);
    CHECK(judge_lift({5, 35, false, true, true}) == LiftRefusal::not_counted);
    CHECK(judge_lift({5, 35, true, false, true}) == LiftRefusal::not_entitled);
    CHECK(judge_lift({5, 35, true, true, false}) == LiftRefusal::not_current);
}

TEST_CASE("a site without an average level goes back in by the usual one") {
    AirPolicy policy;
    policy.average_ppm = 0;
    CHECK(reentry_level_ppm(policy) == 35);
    policy.average_ppm = 25;
    CHECK(reentry_level_ppm(policy) == 25);
}

TEST_CASE("a cause has a name, and a name that is none is that of a reading") {
    for (const auto cause : {AlarmCause::reading, AlarmCause::symptoms, AlarmCause::button}) {
        CHECK(alarm_cause(name_of(cause)) == cause);
    }
    CHECK(alarm_cause("") == AlarmCause::reading);
}

TEST_CASE("the airing time is the purge time of the room, rounded up, and it runs down") {
    const Room room = hall();
    AiringQuestion question = airing(room);
    // K·ln(C1/C2)/ACH, CDC MMWR 1994;43(RR-13) table S3-1.
    const double whole = std::log(210.0 / 35.0) / (12'000.0 / 9000.0) * 60;
    CHECK(airing_now(question).value().minutes_left == static_cast<int>(std::ceil(whole)));
    question.now_ms += 30 * kMin;
    CHECK(airing_now(question).value().minutes_left == static_cast<int>(std::ceil(whole - 30)));
    question.now_ms = kDue + 81 * kMin;
    CHECK(airing_now(question).value().minutes_left == 0);
    CHECK(airing_now(question).value().ppm < 35);
}

TEST_CASE("a door that is open shortens the airing time, and counts only while it counts as open") {
    const Room room = hall();
    AiringQuestion question = airing(room);
    const int shut = *airing_now(question).value().minutes_left;
    question.doors = {{"gate", true, kDue}};
    const int open = *airing_now(question).value().minutes_left;
    CHECK(open == static_cast<int>(std::ceil(shut / 1.5)));
    // An hour later it has counted for its half hour and no longer.
    question.now_ms = kDue + 60 * kMin;
    const double changes = (18'000.0 * 0.5 + 12'000.0 * 0.5) / 9000.0;
    CHECK(airing_now(question).value().ppm == doctest::Approx(210 * std::exp(-changes)));
    // Opened just now, it has done nothing yet.
    question.doors = {{"gate", true, question.now_ms}};
    CHECK(airing_now(question).value().ppm == doctest::Approx(210 * std::exp(-12.0 / 9.0)));
}

TEST_CASE("no outdoor air and more than a day are no time to wait for") {
    Room room = hall();
    room.airflow_m3h = 0;
    CHECK_FALSE(airing_now(airing(room)).value().minutes_left);
    room.airflow_m3h = 100;
    CHECK_FALSE(airing_now(airing(room)).value().minutes_left);
    room.volume_m3 = 0;
    CHECK_FALSE(airing_now(airing(room)).ok());
}
