// The forecast at release: one room as before, and rooms joined by doors and fans.
#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "hazard/room_air.hpp"
#include "rules/air.hpp"

using namespace holdpin;

namespace {

Room room_of(double volume_m3, double mixing = 1) {
    Room room;
    room.id = "room";
    room.volume_m3 = volume_m3;
    room.mixing = mixing;
    return room;
}

AirPolicy usual_policy() {
    AirPolicy policy;
    policy.average_ppm = 35;
    policy.ceiling_ppm = 200;
    return policy;
}

AirQuestion ask(std::vector<RoomNow> rooms, std::vector<WayNow> ways = {}, double minutes = 480) {
    return {std::move(rooms), std::move(ways), minutes, usual_policy()};
}

AirForecast must(const Result<AirForecast>& forecast) {
    REQUIRE_MESSAGE(forecast.ok(), (forecast.ok() ? "" : forecast.error().sentence()));
    return forecast.value();
}

int minutes_of(const AirForecast& forecast) { return forecast.minutes_to_level.value_or(100'000); }

// What one room alone gives by the closed formula of hazard/room_air: the time to the ceiling, and
// the time in which eight hours of the average are breathed.
struct Alone {
    double end_ppm = 0;
    double minutes = INFINITY;
};
Alone alone(const RoomNow& now, double minutes) {
    const AirPolicy policy = usual_policy();
    RoomAir air{now.room->volume_m3, now.airflow_m3h, now.source_lmin, 0, now.start_ppm,
                now.room->mixing};
    const RoomAirForecast forecast = room_air(air, minutes, policy.ceiling_ppm).value();
    Alone result{forecast.end_ppm};
    const auto ceiling = forecast.minutes_to_limit;
    if (ceiling && *ceiling <= minutes) result.minutes = *ceiling;
    const double wanted = policy.average_ppm * 480;
    if (forecast.mean_ppm * minutes < wanted) return result;
    double low = 0;
    double high = minutes;
    for (int i = 0; i < 200; ++i) {
        const double middle = (low + high) / 2;
        (room_air(air, middle).value().mean_ppm * middle < wanted ? low : high) = middle;
    }
    result.minutes = std::min(result.minutes, low);
    return result;
}

}  // namespace

TEST_CASE("a room without open ways has the forecast of its closed formula to 1e-9") {
    std::mt19937 random(11);
    const auto draw = [&](double least, double most) {
        return std::uniform_real_distribution<double>(least, most)(random);
    };
    int passed = 0;
    for (int i = 0; i < 400; ++i) {
        const Room room = room_of(draw(50, 20'000), draw(1, 6));
        const RoomNow now{&room, draw(0, 30'000), draw(0, 40), draw(0, 150)};
        const double minutes = draw(1, 480);
        const Alone expected = alone(now, minutes);
        const AirForecast forecast = must(forecast_air(ask({now}, {}, minutes)));
        CAPTURE(i);
        CHECK(std::abs(forecast.end_ppm - expected.end_ppm) <= 1e-9 * (1 + expected.end_ppm));
        CHECK(forecast.minutes_to_level.has_value() == std::isfinite(expected.minutes));
        if (!forecast.minutes_to_level) continue;
        ++passed;
        CHECK(*forecast.minutes_to_level == static_cast<int>(std::floor(expected.minutes)));
    }
    CHECK(passed > 100);
}

TEST_CASE("an engine next door shortens the time through an open door, not through a shut one") {
    const Room small = room_of(900);
    const Room large = room_of(2400);
    const RoomNow here{&small, 600, 4, 0};
    const RoomNow beyond{&large, 600, 61, 0};
    const AirForecast shut = must(forecast_air(ask({here, beyond})));
    const AirForecast open = must(forecast_air(ask({here, beyond}, {{0, 1, 6000, false, true}})));
    CHECK(minutes_of(open) < minutes_of(shut));
    CHECK(minutes_of(shut) == minutes_of(must(forecast_air(ask({here})))));
    // The door is the same door, whichever of the two rooms has it.
    const AirForecast turned = must(forecast_air(ask({here, beyond}, {{1, 0, 6000, false, true}})));
    CHECK(minutes_of(turned) == minutes_of(open));
}

TEST_CASE("a door that nobody has looked at counts as whichever is worse") {
    const Room one = room_of(900);
    const Room other = room_of(2400);
    for (const double beyond_lmin : {0.0, 61.0}) {
        const RoomNow here{&one, 600, 8, 0};
        const RoomNow beyond{&other, 600, beyond_lmin, 0};
        const int shut = minutes_of(must(forecast_air(ask({here, beyond}))));
        const int open =
            minutes_of(must(forecast_air(ask({here, beyond}, {{0, 1, 6000, false, true}}))));
        const int unknown =
            minutes_of(must(forecast_air(ask({here, beyond}, {{0, 1, 6000, false, false}}))));
        CAPTURE(beyond_lmin);
        CHECK(shut != open);
        CHECK(unknown == std::min(shut, open));
    }
}

TEST_CASE("of two doors that nobody has looked at the worst combination counts") {
    const Room here_room = room_of(900);
    const Room dirty_room = room_of(2400);
    const Room clean_room = room_of(9000);
    const RoomNow here{&here_room, 600, 4, 0};
    const RoomNow dirty{&dirty_room, 600, 61, 0};
    const RoomNow clean{&clean_room, 6000, 0, 0};
    const WayNow to_dirty{0, 1, 6000, false, true};
    WayNow unknown_dirty = to_dirty;
    unknown_dirty.known = false;
    const WayNow unknown_clean{0, 2, 9000, false, false};
    const AirForecast worst =
        must(forecast_air(ask({here, dirty, clean}, {unknown_dirty, unknown_clean})));
    CHECK(minutes_of(worst) == minutes_of(must(forecast_air(ask({here, dirty}, {to_dirty})))));
}

TEST_CASE("a fan carries gas one way only") {
    const Room one = room_of(900);
    const Room other = room_of(2400);
    const RoomNow quiet{&one, 600, 0, 0};
    const RoomNow running{&other, 600, 30, 0};
    const AirForecast away = must(forecast_air(ask({quiet, running}, {{0, 1, 3000, true, true}})));
    CHECK(away.end_ppm == 0);
    const AirForecast into = must(forecast_air(ask({quiet, running}, {{1, 0, 3000, true, true}})));
    CHECK(into.end_ppm > 50);
    CHECK(into.minutes_to_level);
}

TEST_CASE("the forecast is not better for a room over the ceiling because a door is open") {
    const Room one = room_of(900);
    const Room other = room_of(20'000);
    const RoomNow here{&one, 600, 4, 220};
    const RoomNow beyond{&other, 6000, 0, 0};
    const AirForecast open = must(forecast_air(ask({here, beyond}, {{0, 1, 6000, false, true}})));
    REQUIRE(open.minutes_to_level);
    CHECK(*open.minutes_to_level == 0);
    CHECK_FALSE(open.is_average);
}

TEST_CASE("time to a level never grows with the engines next door, nor with what runs here") {
    const Room one = room_of(900);
    const Room other = room_of(2400);
    int before = 100'000;
    for (double lmin = 0; lmin <= 60; lmin += 5) {
        const RoomNow here{&one, 600, 2, 0};
        const RoomNow beyond{&other, 600, lmin, 0};
        const int now =
            minutes_of(must(forecast_air(ask({here, beyond}, {{0, 1, 3000, false, true}}))));
        CHECK(now <= before);
        before = now;
    }
    CHECK(before < 480);
}

TEST_CASE("a door counts as it was read for the minutes of the policy, then nobody knows") {
    // Airflow through doors is read again every half hour: common practice, no source.
    const AirPolicy policy = usual_policy();
    const std::int64_t span_ms = policy.doors_minutes * 60'000LL;
    Room hall = room_of(1000);
    hall.airflow_m3h = 500;
    hall.doors.push_back({});
    hall.doors.back().id = "gate";
    hall.doors.back().airflow_m3h = 2000;
    const std::vector<DoorState> doors{{"gate", true, 7}};
    CHECK(counts_as_open(doors[0], policy, 7 + span_ms));
    CHECK(airflow_now(hall, doors, policy, 7 + span_ms) == 2500);
    CHECK_FALSE(still_counts(doors[0], policy, 8 + span_ms));
    CHECK(airflow_now(hall, doors, policy, 8 + span_ms) == 500);
}

TEST_CASE("a tailpipe test counts to its last day, then the upper value of the class does") {
    // The months are the site's: common practice, no source.
    MachineClass sweeper;
    sweeper.engine.emplace();
    sweeper.engine->co_upper_lmin = 40;
    AirPolicy policy = usual_policy();
    policy.tailpipe_months = 6;
    const TailpipeTest test{3, {2026, 8, 31}};
    CHECK(source_lmin(sweeper, test, policy, {2027, 2, 28}) == 3);
    CHECK(source_lmin(sweeper, test, policy, {2027, 3, 1}) == 40);
    CHECK(source_lmin(sweeper, std::nullopt, policy, {2026, 8, 31}) == 40);
}
