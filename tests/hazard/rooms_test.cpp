#include "hazard/rooms.hpp"

#include <algorithm>
#include <chrono>

#include "draw.hpp"
#include "hazard/room_air.hpp"
#include "near.hpp"

using namespace holdpin;

namespace {

constexpr double kAlways = 1e9;

bool close(double one, double other, double share = 1e-9) {
    return std::fabs(one - other) <= share * std::max({1.0, std::fabs(one), std::fabs(other)});
}

JoinedRooms drawn_site(Draw& draw, int rooms, bool aired) {
    JoinedRooms site;
    for (int i = 0; i < rooms; ++i) {
        site.rooms.push_back({draw.magnitude(5, 50'000), draw.between(0, 100)});
        if (i > 0)
            site.exchange(i, static_cast<int>(draw.between(0, i - 0.01)),
                          draw.magnitude(10, 20'000));
        if (aired) site.exchange(i, kOutdoors, draw.magnitude(10, 20'000));
    }
    // A fan that blows round three rooms.
    if (rooms >= 3) {
        site.airflows.push_back({0, 1, 900});
        site.airflows.push_back({1, 2, 900});
        site.airflows.push_back({2, 0, 900});
    }
    for (int i = 0; i < rooms; i += 2) {
        const double from = draw.between(0, 200);
        site.sources.push_back({i, draw.magnitude(0.1, 5), from, from + draw.between(0, 300)});
    }
    return site;
}

// The slow twin: equal steps of the classical Runge–Kutta method, from the airflows themselves.
std::vector<double> twin(const JoinedRooms& site, double minutes, int steps) {
    using Levels = std::vector<double>;
    const auto rates = [&](const Levels& ppm, double minute) {
        Levels rate(ppm.size());
        const auto level = [&](int room) {
            return room == kOutdoors ? site.outdoor_ppm : ppm[static_cast<std::size_t>(room)];
        };
        for (const Airflow& flow : site.airflows) {
            const double gas = flow.airflow_m3h / 60 * level(flow.from);
            if (flow.to != kOutdoors) rate[static_cast<std::size_t>(flow.to)] += gas;
            if (flow.from != kOutdoors) rate[static_cast<std::size_t>(flow.from)] -= gas;
        }
        for (const TimedSource& source : site.sources) {
            if (minute < source.from_min || minute >= source.to_min) continue;
            rate[static_cast<std::size_t>(source.room)] += 1000 * source.source_lmin;
        }
        for (std::size_t i = 0; i < rate.size(); ++i) rate[i] /= site.rooms[i].volume_m3;
        return rate;
    };
    const auto moved = [](Levels ppm, const Levels& rate, double h) {
        for (std::size_t i = 0; i < ppm.size(); ++i) ppm[i] += h * rate[i];
        return ppm;
    };
    Levels ppm;
    for (const JoinedRoom& room : site.rooms) ppm.push_back(room.start_ppm);
    const double h = minutes / steps;
    for (int i = 0; i < steps; ++i) {
        const double middle = (i + 0.5) * h;  // sources switch between steps, never within one
        const Levels a = rates(ppm, middle);
        const Levels b = rates(moved(ppm, a, h / 2), middle);
        const Levels c = rates(moved(ppm, b, h / 2), middle);
        const Levels d = rates(moved(ppm, c, h), middle);
        for (std::size_t k = 0; k < ppm.size(); ++k)
            ppm[k] += h / 6 * (a[k] + 2 * b[k] + 2 * c[k] + d[k]);
    }
    return ppm;
}

}  // namespace

TEST_CASE("one room of a site is the room of the formula, to a billionth") {
    Draw draw(341);
    for (int round = 0; round < 100; ++round) {
        CAPTURE(round);
        RoomAir room;
        room.volume_m3 = draw.magnitude(5, 50'000);
        room.airflow_m3h = round % 10 == 0 ? 0 : draw.magnitude(0.001, 200) * room.volume_m3;
        room.source_lmin = draw.magnitude(0.001, 1) * room.volume_m3 / 100;
        room.start_ppm = draw.between(0, 500);
        room.outdoor_ppm = draw.between(0, 10);
        JoinedRooms site{{{room.volume_m3, room.start_ppm}}, {}, {}, room.outdoor_ppm};
        site.exchange(0, kOutdoors, room.airflow_m3h);
        site.sources.push_back({0, room.source_lmin, 0, kAlways});
        const RoomsForecast forecast = must(forecast_rooms(site, 480, 7));
        for (std::size_t i = 0; i < forecast.minutes.size(); ++i) {
            CHECK(close(forecast.ppm[i][0], must(room_air(room, forecast.minutes[i])).end_ppm));
        }
        CHECK(close(forecast.mean_ppm[0], must(room_air(room, 480)).mean_ppm));
        CHECK(forecast.minutes.back() == 480);
    }
}

TEST_CASE("no gas is lost or made while no air leaves, to a billionth") {
    Draw draw(342);
    for (int round = 0; round < 40; ++round) {
        CAPTURE(round);
        const JoinedRooms site = drawn_site(draw, 2 + round % 12, false);
        double gas = 0;
        for (const JoinedRoom& room : site.rooms) gas += room.volume_m3 * room.start_ppm;
        for (const TimedSource& source : site.sources) {
            gas += 1000 * source.source_lmin *
                   (std::min(source.to_min, 480.0) - std::min(source.from_min, 480.0));
        }
        const Result<RoomsForecast> forecast = forecast_rooms(site, 480, 30);
        if (!forecast.ok()) continue;  // a cupboard over 100,000 ppm
        double end = 0;
        for (std::size_t i = 0; i < site.rooms.size(); ++i) {
            end += site.rooms[i].volume_m3 * forecast.value().ppm.back()[i];
        }
        CHECK(close(end, gas));
    }
}

TEST_CASE("two equal rooms with a door between them go as their formula") {
    // The sum of both grows with the source alone; the difference dies away with twice the door.
    constexpr double kVolume = 800;
    constexpr double kDoor = 1'200;
    constexpr double kSource = 12;
    JoinedRooms site{{{kVolume, 50}, {kVolume, 10}}, {}, {{0, kSource, 0, kAlways}}, 0};
    site.exchange(0, 1, kDoor);
    const RoomsForecast forecast = must(forecast_rooms(site, 240, 1));
    const double made = 1000 * kSource / kVolume;
    const double fading = 2 * kDoor / 60 / kVolume;
    for (std::size_t i = 0; i < forecast.minutes.size(); ++i) {
        const double t = forecast.minutes[i];
        const double sum = 60 + made * t;
        const double apart = made / fading + (40 - made / fading) * std::exp(-fading * t);
        CHECK(close(forecast.ppm[i][0], (sum + apart) / 2));
        CHECK(close(forecast.ppm[i][1], (sum - apart) / 2));
    }
}

TEST_CASE("a site with engines that start and stop agrees with many small steps") {
    Draw draw(343);
    for (int round = 0; round < 8; ++round) {
        CAPTURE(round);
        JoinedRooms site = drawn_site(draw, 1 + round % 6, true);
        for (JoinedRoom& room : site.rooms) room.volume_m3 += 200;  // small steps must stay stable
        site.outdoor_ppm = 2;
        for (TimedSource& source : site.sources) {
            source.from_min = std::round(source.from_min);
            source.to_min = std::round(source.to_min);
        }
        const RoomsForecast forecast = must(forecast_rooms(site, 200, 37));
        const std::vector<double> slow = twin(site, 200, 20'000);
        for (std::size_t i = 0; i < slow.size(); ++i)
            CHECK(close(forecast.ppm.back()[i], slow[i], 1e-7));
    }
}

TEST_CASE("the step of the points does not change where a site ends") {
    Draw draw(344);
    const JoinedRooms site = drawn_site(draw, 7, true);
    const RoomsForecast whole = must(forecast_rooms(site, 480, 480));
    for (const double step : {0.25, 7.0, 33.3}) {
        const RoomsForecast fine = must(forecast_rooms(site, 480, step));
        for (std::size_t i = 0; i < site.rooms.size(); ++i) {
            CHECK(close(fine.ppm.back()[i], whole.ppm.back()[i]));
            CHECK(close(fine.mean_ppm[i], whole.mean_ppm[i]));
        }
    }
}

TEST_CASE("an opened door lowers the room with the engine and raises the other") {
    JoinedRooms site{{{500, 0}, {500, 0}}, {}, {{0, 8, 0, kAlways}}, 0};
    site.exchange(0, kOutdoors, 500);
    site.exchange(1, kOutdoors, 500);
    const RoomsForecast shut = must(forecast_rooms(site, 120, 1));
    site.exchange(0, 1, 2'000);
    const RoomsForecast open = must(forecast_rooms(site, 120, 1));
    CHECK(shut.ppm.back()[1] == 0);
    CHECK(open.ppm.back()[0] < shut.ppm.back()[0]);
    CHECK(open.ppm.back()[1] > 0);
    CHECK(minutes_below(open, 0, 35).value() >= minutes_below(shut, 0, 35).value());
    CHECK_FALSE(minutes_below(shut, 1, 35).has_value());
    CHECK(minutes_below(shut, 0, 0.0).value() == 0);
    const RoomAir room{500, 500, 8, 0, 0, 1};
    const double exact = *must(room_air(room, 120, 35)).minutes_to_limit;
    CHECK(minutes_below(shut, 0, 35).value() == std::floor(exact));
}

TEST_CASE("more source and less volume or airflow never make any room of a site cleaner") {
    Draw draw(345);
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        JoinedRooms site{{{draw.between(200, 900), 0}, {draw.between(200, 900), 0}},
                         {},
                         {{0, 3, 0, kAlways}},
                         0};
        const double aired = draw.between(100, 2'000);
        site.exchange(0, 1, draw.between(10, 2'000));
        JoinedRooms closer = site;
        site.exchange(1, kOutdoors, aired);
        closer.exchange(1, kOutdoors, aired / 1.2);
        JoinedRooms stronger = site;
        stronger.sources[0].source_lmin *= 1.1;
        JoinedRooms smaller = site;
        for (JoinedRoom& room : smaller.rooms) room.volume_m3 /= 1.1;
        const std::vector<double> before = must(forecast_rooms(site, 90, 90)).ppm.back();
        for (const JoinedRooms& worse : {closer, stronger, smaller}) {
            const std::vector<double> after = must(forecast_rooms(worse, 90, 90)).ppm.back();
            for (std::size_t i = 0; i < 2; ++i) CHECK(after[i] >= before[i] * (1 - 1e-12));
        }
    }
}

TEST_CASE("a stiff site of thirty rooms is reckoned through a shift of twelve hours") {
    // Halls and cupboards with fans: rates from minutes to days. The time is printed, not asserted.
    Draw draw(346);
    JoinedRooms site;
    for (int i = 0; i < 30; ++i) {
        site.rooms.push_back({i % 3 == 0 ? 20'000.0 : 3.0, 0});
        if (i > 0) site.exchange(i, i - 1, i % 2 == 0 ? 5'000 : 20);
        if (i % 10 == 0) site.exchange(i, kOutdoors, 3'000);
    }
    for (int i = 0; i < 10; ++i) {
        const double from = std::round(draw.between(0, 300));
        site.sources.push_back({3 * i, 5, from, from + std::round(draw.between(10, 400))});
    }
    const auto begin = std::chrono::steady_clock::now();
    const RoomsForecast forecast = must(forecast_rooms(site, 720, 1));
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begin;
    MESSAGE("thirty rooms, twelve hours, 720 points: " << took.count() << " ms");
    const std::vector<double> slow = must(forecast_rooms(site, 720, 720)).ppm.back();
    for (std::size_t i = 0; i < 30; ++i) {
        CHECK(close(forecast.ppm.back()[i], slow[i]));
        CHECK(forecast.ppm.back()[i] >= 0);
    }
}

TEST_CASE("a site that cannot be is refused") {
    JoinedRooms good{{{500, 0}, {500, 0}}, {}, {{0, 8, 0, 60}}, 0};
    good.exchange(0, 1, 100);
    CHECK(forecast_rooms(good, 60, 1).ok());
    CHECK_FALSE(forecast_rooms(JoinedRooms{}, 60, 1).ok());
    for (const double bad : {-1.0, kNotANumber, kEndless, 1e30}) {
        CAPTURE(bad);
        JoinedRooms site = good;
        site.rooms[1].volume_m3 = bad;
        CHECK_FALSE(forecast_rooms(site, 60, 1).ok());
        site = good;
        site.rooms[1].start_ppm = bad;
        CHECK_FALSE(forecast_rooms(site, 60, 1).ok());
        site = good;
        site.exchange(0, 1, bad);
        CHECK_FALSE(forecast_rooms(site, 60, 1).ok());
        site = good;
        site.sources[0].source_lmin = bad;
        CHECK_FALSE(forecast_rooms(site, 60, 1).ok());
        site = good;
        site.outdoor_ppm = bad;
        CHECK_FALSE(forecast_rooms(site, 60, 1).ok());
        CHECK_FALSE(forecast_rooms(good, bad, 1).ok());
        CHECK_FALSE(forecast_rooms(good, 60, bad).ok());
    }
    JoinedRooms site = good;
    site.exchange(0, 2, 10);  // no such room
    CHECK_FALSE(forecast_rooms(site, 60, 1).ok());
    site = good;
    site.sources[0].room = kOutdoors;
    CHECK_FALSE(forecast_rooms(site, 60, 1).ok());
    site = good;
    site.sources[0].to_min = -1;
    CHECK_FALSE(forecast_rooms(site, 60, 1).ok());
    site = good;
    site.airflows.push_back({0, kOutdoors, 50});  // a fan out with nothing coming in
    REQUIRE_FALSE(forecast_rooms(site, 60, 1).ok());
    CHECK(forecast_rooms(site, 60, 1).error().what == "room 0 gets 100 m³/h and gives 150 m³/h");
}
