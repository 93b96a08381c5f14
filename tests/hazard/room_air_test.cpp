#include "hazard/room_air.hpp"

#include <numbers>

#include "draw.hpp"
#include "hazard/carbon_monoxide.hpp"
#include "near.hpp"

using namespace holdpin;

namespace {

constexpr double kLitresPerCubicFoot = 28.316846592;

RoomAir drawn_room(Draw& draw) {
    RoomAir room;
    room.volume_m3 = draw.magnitude(50, 50'000);
    room.airflow_m3h = draw.magnitude(0.01, 10) * room.volume_m3;
    room.source_lmin = draw.magnitude(0.01, 20);
    room.outdoor_ppm = draw.between(0, 5);
    room.start_ppm = draw.between(0, 300);
    room.mixing = draw.between(1, 10);
    return room;
}

// The slow twin: the balance in many small steps of the classical Runge–Kutta method.
AirCourse twin(const RoomAir& room, double minutes, double& mean) {
    const double air = room.airflow_m3h / room.mixing / 60;
    const auto rate = [&](double ppm) {
        return (room.source_lmin * 1000 + air * (room.outdoor_ppm - ppm)) / room.volume_m3;
    };
    constexpr int kSteps = 20'000;
    const double h = minutes / kSteps;
    double ppm = room.start_ppm;
    double dose = 0;
    for (int i = 0; i < kSteps; ++i) {
        const double a = rate(ppm);
        const double b = rate(ppm + h / 2 * a);
        const double c = rate(ppm + h / 2 * b);
        const double d = rate(ppm + h * c);
        const double next = ppm + h / 6 * (a + 2 * b + 2 * c + d);
        dose += h / 6 * (ppm + 4 * (ppm + h / 2 * b) + next);
        ppm = next;
    }
    mean = dose / minutes;
    return {ppm, 0, 0};
}

}  // namespace

TEST_CASE("the dilution example of the ACGIH manual comes out") {
    // ACGIH Industrial Ventilation, section 2.4 (from memory, V=): 1.2 cfm into 100,000 ft³ with
    // 2,000 cfm; 200 ppm after 20.3 min, 419 ppm after 60 min.
    RoomAir room;
    room.volume_m3 = 100'000 * kLitresPerCubicFoot / 1000;
    room.airflow_m3h = 2'000 * 60 * kLitresPerCubicFoot / 1000;
    room.source_lmin = 1.2 * kLitresPerCubicFoot;
    const RoomAirForecast forecast = must(room_air(room, 60, 200));
    CHECK(near(*forecast.minutes_to_limit, 20.3, 0.05));
    CHECK(near(forecast.end_ppm, 419, 0.5));
    CHECK(near(*forecast.steady_ppm, 600, 1e-9));  // computed here only
}

TEST_CASE("one change of air removes 63 percent in a well-mixed room") {
    // Glossary of NCBI NBK179247 (read, V=): 1 − 1/e.
    RoomAir room;
    room.volume_m3 = 300;
    room.airflow_m3h = 300;
    room.start_ppm = 100;
    CHECK(near(100 - must(room_air(room, 60)).end_ppm, 63, 0.5));
}

TEST_CASE("engines of the measured kind fill a hall as computed before") {
    // Regression (computed here only) on inputs of Fawcett et al. 1992 (read), and of a warehouse
    // of 300,000 ft³ with two fans of 5,000 cfm and a truck at half duty (Burton 2008, read).
    RoomAir hall;
    hall.volume_m3 = 2'000;
    hall.airflow_m3h = 2'000;
    hall.source_lmin = 61;
    CHECK(near(*must(room_air(hall, 480, 200)).minutes_to_limit, 6.94, 0.005));
    CHECK(near(*must(room_air(hall, 480)).steady_ppm, 1830, 0.5));
    hall.source_lmin = 16;
    CHECK(near(*must(room_air(hall, 480, 35)).minutes_to_limit, 4.54, 0.005));
    hall.source_lmin = 8;
    CHECK(near(*must(room_air(hall, 480, 35)).minutes_to_limit, 9.46, 0.005));
    CHECK(near(*must(room_air(hall, 480, 200)).minutes_to_limit, 107.5, 0.05));
    CHECK(near(*must(room_air(hall, 480)).steady_ppm, 240, 1e-9));

    RoomAir warehouse;
    warehouse.volume_m3 = 300'000 * kLitresPerCubicFoot / 1000;
    warehouse.airflow_m3h = 10'000 * 60 * kLitresPerCubicFoot / 1000;
    CHECK(near(warehouse.airflow_m3h / warehouse.volume_m3, 2.0, 1e-9));
    warehouse.source_lmin = 61 / 2.0;
    CHECK(near(*must(room_air(warehouse, 480)).steady_ppm, 108, 0.5));
    warehouse.source_lmin = must(exhaust_co_lmin(0.4, 2000)) / 2;
    CHECK(near(*must(room_air(warehouse, 480)).steady_ppm, 14, 0.5));
}

TEST_CASE("a heater of one gram an hour leads to the level of the exercise") {
    // Exercise with 50 m³ and one change an hour (inputs read, result computed): 20 mg/m³, 17.5
    // ppm.
    RoomAir room;
    room.volume_m3 = 50;
    room.airflow_m3h = 50;
    room.source_lmin = must(co_lmin_of_gh(1));
    const double steady = *must(room_air(room, 60)).steady_ppm;
    CHECK(near(steady, 17.5, 0.05));
    CHECK(near(must(co_mg_m3(steady)), 20, 1e-9));
    room.source_lmin = 0;
    room.start_ppm = steady;
    CHECK(near(must(room_air(room, 60)).end_ppm, steady / std::numbers::e, 1e-12));
}

TEST_CASE("the formula agrees with the balance taken in small steps") {
    Draw draw(301);
    for (int round = 0; round < 40; ++round) {
        CAPTURE(round);
        RoomAir room = drawn_room(draw);
        if (round % 8 == 0) room.airflow_m3h = 0;
        const double minutes = draw.magnitude(1, 600);
        double mean = 0;
        const double end = twin(room, minutes, mean).start_ppm;
        const RoomAirForecast forecast = must(room_air(room, minutes));
        CHECK(forecast.end_ppm == doctest::Approx(end).epsilon(1e-9));
        CHECK(forecast.mean_ppm == doctest::Approx(mean).epsilon(1e-9));
    }
}

TEST_CASE("more source, less volume and less airflow never make cleaner air") {
    Draw draw(302);
    for (int round = 0; round < 500; ++round) {
        CAPTURE(round);
        RoomAir room = drawn_room(draw);
        room.start_ppm = room.outdoor_ppm;
        const double minutes = draw.magnitude(1, 600);
        const RoomAirForecast before = must(room_air(room, minutes, 35));
        RoomAir stronger = room;
        stronger.source_lmin *= 1.1;
        RoomAir smaller = room;
        smaller.volume_m3 /= 1.1;
        RoomAir closer = room;
        closer.airflow_m3h /= 1.1;
        for (const RoomAir& worse : {stronger, smaller, closer}) {
            const RoomAirForecast after = must(room_air(worse, minutes, 35));
            CHECK(after.end_ppm >= before.end_ppm);
            CHECK(after.mean_ppm >= before.mean_ppm);
            if (!before.minutes_to_limit) continue;
            REQUIRE(after.minutes_to_limit.has_value());
            CHECK(*after.minutes_to_limit <= *before.minutes_to_limit);
        }
    }
}

TEST_CASE("the time to a limit is when the air is at the limit") {
    Draw draw(303);
    for (int round = 0; round < 500; ++round) {
        CAPTURE(round);
        const RoomAir room = drawn_room(draw);
        const RoomAirForecast forecast = must(room_air(room, 10, 350));
        if (!forecast.minutes_to_limit) {
            CHECK(forecast.steady_ppm.value() <= 350);
        } else if (*forecast.minutes_to_limit <= 10'080) {
            CHECK(must(room_air(room, *forecast.minutes_to_limit)).end_ppm ==
                  doctest::Approx(350).epsilon(1e-9));
        }
    }
}

TEST_CASE("a closed room rises straight, and one that is nearly closed comes out the same") {
    RoomAir room;
    room.volume_m3 = 1'000;
    room.source_lmin = 10;
    const RoomAirForecast closed = must(room_air(room, 120, 600));
    CHECK(closed.end_ppm == doctest::Approx(1'200).epsilon(1e-14));
    CHECK(closed.mean_ppm == doctest::Approx(600).epsilon(1e-14));
    CHECK(closed.minutes_to_limit.value() == doctest::Approx(60).epsilon(1e-14));
    CHECK_FALSE(closed.steady_ppm.has_value());
    room.airflow_m3h = 1e-9;
    const RoomAirForecast nearly = must(room_air(room, 120, 600));
    CHECK(nearly.end_ppm == doctest::Approx(closed.end_ppm).epsilon(1e-11));
    CHECK(nearly.mean_ppm == doctest::Approx(closed.mean_ppm).epsilon(1e-11));
    CHECK(nearly.minutes_to_limit.value() == doctest::Approx(60).epsilon(1e-11));
    CHECK_FALSE(nearly.steady_ppm.has_value());
}

TEST_CASE("air that is over the limit already has no time left, and clean air all of it") {
    RoomAir room;
    room.volume_m3 = 1'000;
    room.airflow_m3h = 1'000;
    room.start_ppm = 50;
    CHECK(must(room_air(room, 60, 35)).minutes_to_limit.value() == 0);
    room.start_ppm = 0;
    CHECK_FALSE(must(room_air(room, 60, 35)).minutes_to_limit.has_value());
}

TEST_CASE("a room that cannot be is refused with the name of the key") {
    const RoomAir good{1'000, 1'000, 5, 0, 0, 1};
    CHECK(room_air(good, 60, 35).ok());
    for (const double bad : {-1.0, kNotANumber, kEndless, -kEndless, 1e30}) {
        CAPTURE(bad);
        RoomAir room = good;
        room.volume_m3 = bad;
        REQUIRE_FALSE(room_air(room, 60).ok());
        CHECK(room_air(room, 60).error().sentence().find("volume_m3") != std::string::npos);
        CHECK(room_air(room, 60).error().kind == ErrorKind::invalid);
        for (double RoomAir::*field :
             {&RoomAir::airflow_m3h, &RoomAir::source_lmin, &RoomAir::outdoor_ppm,
              &RoomAir::start_ppm, &RoomAir::mixing}) {
            room = good;
            room.*field = bad;
            CHECK_FALSE(room_air(room, 60).ok());
        }
        CHECK_FALSE(room_air(good, bad).ok());
        CHECK_FALSE(room_air(good, 60, bad).ok());
    }
    CHECK_FALSE(room_air({1'000, 1'000, 5, 0, 0, 0.5}, 60).ok());
    CHECK_FALSE(room_air({1, 0, 61, 0, 0, 1}, 480).ok());  // more gas than room
}
