#include "hazard/meter.hpp"

#include <algorithm>

#include "draw.hpp"
#include "near.hpp"

using namespace holdpin;

namespace {

// Readings of a room every `step` minutes, with scatter of `scatter_ppm`.
std::vector<AirSample> readings_of(const RoomAir& room, int count, double step, double scatter_ppm,
                                 Draw& draw) {
    const AirCourse course = must(air_course(room));
    std::vector<AirSample> readings;
    for (int i = 0; i < count; ++i) {
        const double minute = 30 + i * step;
        const double ppm = course.at(i * step) + scatter_ppm * draw.noise();
        readings.push_back({minute, std::max(0.0, ppm)});
    }
    return readings;
}

RoomAir hall() { return {1'500, 3'000, 4, 2, 20, 1}; }

double line_at(const std::vector<AirSample>& readings, double minute) {
    for (std::size_t i = 1; i < readings.size(); ++i) {
        const AirSample& left = readings[i - 1];
        const AirSample& right = readings[i];
        if (minute > right.minute) continue;
        return left.ppm +
               (right.ppm - left.ppm) * (minute - left.minute) / (right.minute - left.minute);
    }
    return 0;
}

}  // namespace

TEST_CASE("rolling means agree with a sum over the straight lines between readings") {
    Draw draw(351);
    std::vector<AirSample> readings{{0, 10}};
    while (readings.size() < 200) {
        readings.push_back({readings.back().minute + draw.between(0.5, 9), draw.between(0, 90)});
    }
    const std::vector<RollingMean> means = must(rolling_means(readings, 60));
    REQUIRE(means.size() == readings.size());
    for (std::size_t i = 1; i < means.size(); i += 21) {
        CAPTURE(i);
        for (const bool quarter : {true, false}) {
            const double window = std::min(quarter ? 15.0 : 480.0, readings[i].minute);
            constexpr int kParts = 20'000;
            double sum = 0;
            for (int k = 0; k < kParts; ++k) {
                sum += line_at(readings, readings[i].minute - window * (k + 0.5) / kParts);
            }
            CHECK(
                near(quarter ? means[i].mean_15min_ppm : means[i].mean_8h_ppm, sum / kParts, 1e-4));
            CHECK(near(quarter ? means[i].covered_15min : means[i].covered_8h, window, 1e-9));
        }
    }
}

TEST_CASE("silence of the meter is not counted as clean air") {
    const std::vector<AirSample> readings{{0, 40}, {10, 40}, {300, 40}, {310, 40}};
    const std::vector<RollingMean> means = must(rolling_means(readings, 30));
    CHECK(means.back().mean_8h_ppm == doctest::Approx(40));
    CHECK(means.back().covered_8h == doctest::Approx(20));
    CHECK(means[2].covered_15min == 0);
    CHECK(means[2].mean_15min_ppm == 40);
    CHECK(means[0].covered_8h == 0);
}

TEST_CASE("zeros of the meter are readings") {
    const std::vector<AirSample> readings{{0, 0}, {10, 0}, {20, 60}, {30, 0}};
    CHECK(must(rolling_means(readings, 30)).back().mean_8h_ppm == doctest::Approx(20));
}

TEST_CASE("readings without scatter give back the room they come from") {
    Draw draw(352);
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        RoomAir room = hall();
        room.airflow_m3h = draw.magnitude(0.3, 8) * room.volume_m3;
        room.source_lmin = draw.magnitude(0.5, 20);
        room.start_ppm = draw.between(0, 200);
        const std::vector<AirSample> readings = readings_of(room, 40, 2, 0, draw);
        const FittedRoom fit = must(fit_room(readings, {room.volume_m3, room.outdoor_ppm}));
        CHECK(near_share(fit.airflow_m3h.value, room.airflow_m3h, 1e-4));
        CHECK(near_share(fit.source_lmin.value, room.source_lmin, 1e-4));
        CHECK(near(fit.start_ppm, room.start_ppm, 0.01));
        CHECK(near(fit.end_ppm, readings.back().ppm, 0.01));
        CHECK(fit.scatter_ppm < 0.01);
        CHECK(fit.airflow_m3h.low <= fit.airflow_m3h.value);
        CHECK(fit.airflow_m3h.high >= fit.airflow_m3h.value);
    }
}

TEST_CASE("an interval of 95 percent holds the truth about that often") {
    Draw draw(353);
    const RoomAir room = hall();
    constexpr int kRounds = 400;
    int source_held = 0;
    int airflow_held = 0;
    double scatter = 0;
    for (int round = 0; round < kRounds; ++round) {
        const std::vector<AirSample> readings = readings_of(room, 30, 3, 2, draw);
        const FittedRoom fit = must(fit_room(readings, {room.volume_m3, room.outdoor_ppm}));
        source_held +=
            fit.source_lmin.low <= room.source_lmin && room.source_lmin <= fit.source_lmin.high;
        airflow_held +=
            fit.airflow_m3h.low <= room.airflow_m3h && room.airflow_m3h <= fit.airflow_m3h.high;
        scatter += fit.scatter_ppm / kRounds;
    }
    CHECK(source_held >= 366);  // 91.5 %: three deviations below 95 % of 400
    CHECK(source_held <= 395);
    CHECK(airflow_held >= 366);
    CHECK(airflow_held <= 395);
    CHECK(near(scatter, 2, 0.1));
}

TEST_CASE("a room that airs out gives its airflow, and no source to speak of") {
    Draw draw(354);
    RoomAir room = hall();
    room.source_lmin = 0;
    room.outdoor_ppm = 0;
    room.start_ppm = 300;
    const std::vector<AirSample> readings = readings_of(room, 30, 2, 1, draw);
    const FittedRoom fit = must(fit_room(readings, {room.volume_m3, 0}));
    CHECK(fit.airflow_m3h.low <= room.airflow_m3h);
    CHECK(fit.airflow_m3h.high >= room.airflow_m3h);
    CHECK(fit.source_lmin.low == 0);
    CHECK(fit.source_lmin.high < 0.5);
}

TEST_CASE("a straight rise tells no airflow, and too few readings nothing") {
    std::vector<AirSample> straight;
    for (int i = 0; i < 20; ++i) straight.push_back({i * 1.0, i * 3.0});
    REQUIRE_FALSE(fit_room(straight, {1'000}).ok());
    CHECK(fit_room(straight, {1'000}).error().kind == ErrorKind::refused);
    std::vector<AirSample> still;
    for (int i = 0; i < 20; ++i) still.push_back({i * 1.0, 5});
    const Result<FittedRoom> nothing = fit_room(still, {1'000});
    CHECK((!nothing.ok() || nothing.value().airflow_m3h.high >= nothing.value().airflow_m3h.low));
    straight.resize(4);
    CHECK_FALSE(fit_room(straight, {1'000}).ok());
}

TEST_CASE("a forecast goes on from the readings, and its unfavourable side lies above") {
    Draw draw(355);
    const RoomAir room = hall();
    const std::vector<AirSample> readings = readings_of(room, 30, 3, 1, draw);
    const ShiftForecast forecast =
        must(forecast_shift(readings, {room.volume_m3, room.outdoor_ppm}, 300, 75));
    const double truth = must(room_air(room, 87 + 300)).end_ppm;
    CHECK(near(forecast.likely.end_ppm, truth, 3));
    CHECK(forecast.unfavourable.end_ppm > truth);
    CHECK(forecast.unfavourable_8h_ppm > forecast.likely_8h_ppm);
    // 387 minutes of the shift are known or foreseen; the rest counts as clean.
    const double mean = must(room_air(room, 387)).mean_ppm * 387 / 480;
    CHECK(near(forecast.likely_8h_ppm, mean, 2));
    const ShiftForecast over = must(forecast_shift(readings, {room.volume_m3, 2}, 0, 1));
    CHECK(over.likely.minutes_to_limit.value() == 0);
}

TEST_CASE("readings that cannot be are refused") {
    using Readings = std::vector<AirSample>;
    const RoomToFit room{1'000};
    for (const double bad : {-1.0, kNotANumber, kEndless, 1e30}) {
        CAPTURE(bad);
        CHECK_FALSE(rolling_means(Readings{{0, bad}}, 30).ok());
        CHECK_FALSE(rolling_means(Readings{{bad, 1}}, 30).ok());
        CHECK_FALSE(rolling_means(Readings{{0, 1}}, bad).ok());
        CHECK_FALSE(fit_room(Readings{{0, 1}, {1, 2}, {2, bad}, {3, 3}, {4, 4}}, room).ok());
        const Readings good{{0, 1}, {1, 5}, {2, 7}, {3, 8}, {4, 8.4}, {5, 8.6}};
        CHECK(fit_room(good, room).ok());
        CHECK_FALSE(fit_room(good, {bad}).ok());
        CHECK_FALSE(fit_room(good, {1'000, bad}).ok());
        CHECK_FALSE(fit_room(good, {1'000, 0, bad}).ok());
        CHECK_FALSE(forecast_shift(good, room, bad, 35).ok());
        CHECK_FALSE(forecast_shift(good, room, 60, bad).ok());
    }
    CHECK_FALSE(rolling_means(Readings{{5, 1}, {5, 2}}, 30).ok());  // twice the same time
    CHECK_FALSE(fit_room(Readings{{0, 1}, {1, 2}, {1, 2}, {3, 3}, {4, 4}}, room).ok());
}
