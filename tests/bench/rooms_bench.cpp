// A stiff site of thirty rooms through a shift of twelve hours, against fixed steps as short as the
// quickest room asks for. Halls of 20,000 m³ beside cupboards of 3 m³ with a fan. Target: 20 ms.
#include "hazard/rooms.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <vector>

namespace holdpin {
namespace {

JoinedRooms stiff_site() {
    JoinedRooms site;
    for (int i = 0; i < 30; ++i) {
        site.rooms.push_back({i % 3 == 0 ? 20'000.0 : 3.0, 0});
        if (i > 0) site.exchange(i, i - 1, i % 2 == 0 ? 5'000 : 20);
        if (i % 10 == 0) site.exchange(i, kOutdoors, 3'000);
    }
    for (int i = 0; i < 10; ++i) site.sources.push_back({3 * i, 5, i * 37.0, i * 37.0 + 211});
    return site;
}

// The plainest way: explicit Euler steps just short enough to stay stable.
double euler(const JoinedRooms& site, double minutes, double h) {
    std::vector<double> ppm(site.rooms.size());
    std::vector<double> gas(site.rooms.size());
    for (double t = 0; t < minutes; t += h) {
        std::fill(gas.begin(), gas.end(), 0.0);
        for (const Airflow& flow : site.airflows) {
            const double carried =
                flow.from == kOutdoors
                    ? 0
                    : ppm[static_cast<std::size_t>(flow.from)] * flow.airflow_m3h / 60;
            if (flow.to != kOutdoors) gas[static_cast<std::size_t>(flow.to)] += carried;
            if (flow.from != kOutdoors) gas[static_cast<std::size_t>(flow.from)] -= carried;
        }
        for (const TimedSource& source : site.sources) {
            if (t < source.from_min || t >= source.to_min) continue;
            gas[static_cast<std::size_t>(source.room)] += 1000 * source.source_lmin;
        }
        for (std::size_t i = 0; i < ppm.size(); ++i) ppm[i] += h * gas[i] / site.rooms[i].volume_m3;
    }
    return ppm[0];
}

template <typename Call>
double milliseconds(Call call) {
    const auto begin = std::chrono::steady_clock::now();
    call();
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begin;
    return took.count();
}

}  // namespace
}  // namespace holdpin

int main() {
    using namespace holdpin;
    const JoinedRooms site = stiff_site();
    double exact_ppm = 0;
    double plain_ppm = 0;
    const auto exact = [&] {
        const Result<RoomsForecast> forecast = forecast_rooms(site, 720, 5);
        if (forecast.ok()) exact_ppm = forecast.value().ppm.back()[0];
    };
    // A cupboard changes its air some 28 times a minute.
    const auto plain = [&] { plain_ppm = euler(site, 720, 0.01); };
    double ours = 1e9;
    double theirs = 1e9;
    for (int turn = 0; turn < 5; ++turn) {
        ours = std::min(ours, milliseconds(exact));
        theirs = std::min(theirs, milliseconds(plain));
    }
    fmt::print(
        "thirty rooms, twelve hours: exact {:.2f} ms (target 20), Euler {:.2f} ms, ratio {:.1f}\n",
        ours, theirs, theirs / ours);
    fmt::print("first room at the end: {:.6f} ppm against {:.6f} ppm\n", exact_ppm, plain_ppm);
    return EXIT_SUCCESS;
}
