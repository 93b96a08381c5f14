#include "hazard/rooms.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hazard/linear_network.hpp"
#include "hazard/valid_range.hpp"

namespace holdpin {

namespace {

constexpr double kMostPpm = 100'000;
constexpr std::size_t kMostRooms = 200;
constexpr ValidRange kVolume{"volume_m3", "m³", 1, 10'000'000};
constexpr ValidRange kStart{"start_ppm", "ppm", 0, kMostPpm};
constexpr ValidRange kOutdoorPpm{"outdoor_ppm", "ppm", 0, kMostPpm};
constexpr ValidRange kAirflow{"airflow_m3h", "m³/h", 0, 100'000'000};
constexpr ValidRange kSource{"source_lmin", "L/min", 0, 10'000};
constexpr ValidRange kFromTo{"minute of a source", "min", 0, 1e9};
constexpr ValidRange kMinutes{"minutes", "min", 0.01, 10'080};
constexpr ValidRange kStep{"step_min", "min", 0.01, 1440};
constexpr ValidRange kPoints{"points of the forecast", "", 0, 20'000};

Error invalid(std::string what, std::string mend) {
    return Error{ErrorKind::invalid, std::move(what), "", std::move(mend)};
}

std::size_t index(int room) { return static_cast<std::size_t>(room); }

bool is_room(const JoinedRooms& site, int room) {
    return room >= 0 && index(room) < site.rooms.size();
}

Result<void> check_airflow(const JoinedRooms& site, const Airflow& flow) {
    TRY(refuse_outside(kAirflow, flow.airflow_m3h));
    const bool known = (flow.from == kOutdoors || is_room(site, flow.from)) &&
                       (flow.to == kOutdoors || is_room(site, flow.to));
    if (!known || flow.from == flow.to) {
        return invalid(fmt::format("an airflow goes from {} to {}, and there are {} rooms",
                                   flow.from, flow.to, site.rooms.size()),
                       "name two different places");
    }
    return {};
}

Result<void> check_source(const JoinedRooms& site, const TimedSource& source) {
    TRY(refuse_outside(kSource, source.source_lmin));
    TRY(refuse_outside(kFromTo, source.from_min));
    TRY(refuse_outside(kFromTo, source.to_min));
    if (!is_room(site, source.room)) {
        return invalid(fmt::format("a source stands in room {}, which is not there", source.room),
                       "name a room of the site");
    }
    if (source.to_min < source.from_min) {
        return invalid("a source stops before it starts", "give from_min not after to_min");
    }
    return {};
}

// A room whose air does not balance would lose or make air, and with it gas.
Result<void> check_balance(const JoinedRooms& site) {
    std::vector<double> in(site.rooms.size());
    std::vector<double> out(site.rooms.size());
    for (const Airflow& flow : site.airflows) {
        if (flow.to != kOutdoors) in[index(flow.to)] += flow.airflow_m3h;
        if (flow.from != kOutdoors) out[index(flow.from)] += flow.airflow_m3h;
    }
    for (std::size_t room = 0; room < in.size(); ++room) {
        if (std::abs(in[room] - out[room]) > 1e-6 * std::max(in[room], out[room])) {
            return invalid(fmt::format("room {} gets {:g} m³/h and gives {:g} m³/h", room, in[room],
                                       out[room]),
                           "say where the rest of the air comes from or goes to");
        }
    }
    return {};
}

Result<void> check(const JoinedRooms& site) {
    if (site.rooms.empty() || site.rooms.size() > kMostRooms) {
        return invalid(fmt::format("there are {} rooms", site.rooms.size()), "give 1 to 200 rooms");
    }
    TRY(refuse_outside(kOutdoorPpm, site.outdoor_ppm));
    for (const JoinedRoom& room : site.rooms) {
        TRY(refuse_outside(kVolume, room.volume_m3));
        TRY(refuse_outside(kStart, room.start_ppm));
    }
    for (const Airflow& flow : site.airflows) TRY(check_airflow(site, flow));
    for (const TimedSource& source : site.sources) TRY(check_source(site, source));
    return check_balance(site);
}

// A by rows: what leaves a room stands on its diagonal, what comes from another room beside it.
std::vector<double> matrix_of(const JoinedRooms& site) {
    const std::size_t n = site.rooms.size();
    std::vector<double> a(n * n);
    for (const Airflow& flow : site.airflows) {
        if (flow.from != kOutdoors) {
            const std::size_t from = index(flow.from);
            a[from * n + from] -= flow.airflow_m3h / 60 / site.rooms[from].volume_m3;
        }
        if (flow.from != kOutdoors && flow.to != kOutdoors) {
            const std::size_t to = index(flow.to);
            a[to * n + index(flow.from)] += flow.airflow_m3h / 60 / site.rooms[to].volume_m3;
        }
    }
    return a;
}

// ppm a minute that outdoor air and the engines running at `minute` bring into each room.
std::vector<double> input_at(const JoinedRooms& site, double minute) {
    std::vector<double> input(site.rooms.size());
    for (const Airflow& flow : site.airflows) {
        if (flow.from != kOutdoors || flow.to == kOutdoors) continue;
        input[index(flow.to)] += site.outdoor_ppm * flow.airflow_m3h / 60;
    }
    for (const TimedSource& source : site.sources) {
        if (minute < source.from_min || minute >= source.to_min) continue;
        input[index(source.room)] += 1000 * source.source_lmin;
    }
    for (std::size_t room = 0; room < input.size(); ++room) {
        input[room] /= site.rooms[room].volume_m3;
    }
    return input;
}

std::vector<double> switchings(const JoinedRooms& site, double minutes) {
    std::vector<double> times{minutes};
    for (const TimedSource& source : site.sources) {
        for (const double time : {source.from_min, source.to_min}) {
            if (time > 0 && time < minutes) times.push_back(time);
        }
    }
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end()), times.end());
    return times;
}

// The state of a site that is moved on from switching to switching.
struct Site {
    const JoinedRooms& site;
    LinearNetwork network;
    std::vector<double> switching;
    std::size_t next = 0;
    double minute = 0;
    std::vector<double> ppm;
    std::vector<double> integral;

    void to(double until) {
        while (minute < until) {
            const double stop = std::min(until, switching[next]);
            network.advance(stop - minute, input_at(site, minute), ppm, integral);
            minute = stop;
            if (next + 1 < switching.size() && stop == switching[next]) ++next;
        }
    }
};

Result<void> dilute_enough(const std::vector<double>& ppm) {
    const double most = *std::max_element(ppm.begin(), ppm.end());
    if (most <= kMostPpm) return {};
    return invalid(fmt::format("a room would hold {:.0f} ppm, and this sum holds up to {:.0f} ppm",
                               most, kMostPpm),
                   "check volumes, sources and minutes");
}

}  // namespace

void JoinedRooms::exchange(int one, int other, double airflow_m3h) {
    airflows.push_back({one, other, airflow_m3h});
    airflows.push_back({other, one, airflow_m3h});
}

Result<RoomsForecast> forecast_rooms(const JoinedRooms& site, double minutes, double step_min) {
    TRY(refuse_outside(kMinutes, minutes));
    TRY(refuse_outside(kStep, step_min));
    const double points = std::ceil(minutes / step_min * (1 - 1e-12));
    TRY(refuse_outside(kPoints, points));
    TRY(check(site));
    const std::size_t n = site.rooms.size();
    Site now{site, {n, matrix_of(site)}, switchings(site, minutes), 0, 0, {}, {}};
    now.integral.resize(n);
    for (const JoinedRoom& room : site.rooms) now.ppm.push_back(room.start_ppm);
    RoomsForecast forecast{{0}, {now.ppm}, {}, {now.integral}};
    for (double point = 1; point <= points; ++point) {
        now.to(point < points ? point * step_min : minutes);
        TRY(dilute_enough(now.ppm));
        forecast.minutes.push_back(now.minute);
        forecast.ppm.push_back(now.ppm);
        forecast.dose_ppm_min.push_back(now.integral);
    }
    for (const double dose : now.integral) forecast.mean_ppm.push_back(dose / minutes);
    return forecast;
}

std::optional<double> minutes_below(const RoomsForecast& forecast, std::size_t room,
                                    double limit_ppm) {
    for (std::size_t point = 0; point < forecast.ppm.size(); ++point) {
        if (forecast.ppm[point][room] < limit_ppm) continue;
        return point == 0 ? 0 : forecast.minutes[point - 1];
    }
    return std::nullopt;
}

}  // namespace holdpin
