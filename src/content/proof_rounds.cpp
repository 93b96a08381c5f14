// Checks of rounds: how points are answered, in what order they come, what they lead to.
#include <fmt/format.h>

#include <algorithm>

#include "content/proofreader.hpp"

namespace holdpin {
namespace {

constexpr std::size_t kBinaryPercentMax = 30;
constexpr std::int64_t kPercentMaxTenths = 1000;

bool is_heavy(Outcome outcome) { return outcome == Outcome::limit || outcome == Outcome::stop; }

// Two answers beside "cannot see" are still a yes and a no (H-14).
bool is_binary(const Point& point) {
    const auto answers =
        std::count_if(point.readings.begin(), point.readings.end(),
                      [](const Reading& reading) { return !reading.id.starts_with("cannot"); });
    return !point.number && answers <= 2;
}

void proof_reading(Proof& proof, const Reading& reading, const Spot& at) {
    const auto outcome = name_of(reading.outcome);
    const bool has_key = at.node().find("finding") != nullptr;
    if (reading.outcome != Outcome::fine && !has_key) {
        proof.note(at, fmt::format("reading \"{}\" has no finding", reading.id),
                   fmt::format("write finding = {{ en = \"…\", es = \"…\" }} because its outcome "
                               "is {}",
                               outcome));
    }
    // Not where the outcome itself was misspelt and the reader put a fine in its place.
    if (has_key && at.key("outcome").node().text == "fine") {
        proof.note(at.key("finding"),
                   fmt::format("reading \"{}\" has a finding, and its outcome is fine", reading.id),
                   "take the finding out or write outcome = \"note\"");
    }
    proof.drawing(reading.drawing, at);
    proof.known(reading.sheet, ids_of(proof.pack().sheets, &Sheet::id), at.key("sheet"), "sheet");
}

void proof_readings(Proof& proof, const Point& point, const Spot& at) {
    const std::size_t count = point.readings.size();
    if (count != 3 && count != 4) {
        proof.note(at, fmt::format("point \"{}\" has {} readings", point.id, count),
                   "give 3 or 4, or a number");
    }
    const bool has_fine =
        std::any_of(point.readings.begin(), point.readings.end(),
                    [](const Reading& reading) { return reading.outcome == Outcome::fine; });
    if (!has_fine && count > 0) {
        proof.note(at, fmt::format("point \"{}\" has no reading that is fine", point.id),
                   "give the reading of a machine in order outcome = \"fine\"");
    }
    for (std::size_t i = 0; i < count; ++i) {
        proof_reading(proof, point.readings[i], at.item("reading", i));
    }
    proof.unique(ids_of(point.readings, &Reading::id), places_of(at, "reading", count), "reading");
}

void proof_number(Proof& proof, const Point& point, const Spot& at) {
    const NumberPoint& number = *point.number;
    if (!point.readings.empty()) {
        proof.note(at, fmt::format("point \"{}\" has readings and a number", point.id),
                   "keep one of them");
    }
    if (number.min_tenths >= number.max_tenths) {
        proof.note(at.key("max"), "\"max\" is not above \"min\"", "write a larger max");
    }
    if (number.low_tenths >= 0 &&
        (number.low_tenths < number.min_tenths || number.low_tenths > number.max_tenths)) {
        proof.note(at.key("low"), "\"low\" is not between min and max", "write one between them");
    }
    if (number.keeps == "fuel" && number.max_tenths > kPercentMaxTenths) {
        proof.note(at.key("max"), "fuel is kept in percent", "write max = \"100\"");
    }
    if (number.outside == Outcome::fine) {
        proof.note(at.key("outside"), "\"outside\" cannot be fine", "write note, limit or stop");
    }
    const bool can_find = number.low_tenths >= 0 || number.most_rise_tenths > 0;
    if (can_find && !at.node().find("finding")) {
        proof.note(at, fmt::format("the number of point \"{}\" has no finding", point.id),
                   "write finding = { en = \"…\", es = \"…\" } because it has low or most_rise");
    }
}

void proof_point(Proof& proof, const Round& round, const Point& point, const Spot& at) {
    proof.footing(point.footing, at);
    proof.picture(point.picture, at);
    proof.warnings(point.warnings, at);
    if (const auto* machine = proof.pack().machine_class(round.machine_class)) {
        proof.known(point.topic, ids_of(machine->topics, &Topic::id), at.key("topic"), "topic");
    }
    if (point.number) {
        proof_number(proof, point, at.key("number"));
    } else if (!at.node().find("number")) {
        proof_readings(proof, point, at);
    }
    const bool is_weighty = (point.number && is_heavy(point.number->outside)) ||
                            std::any_of(point.readings.begin(), point.readings.end(),
                                        [](const Reading& r) { return is_heavy(r.outcome); });
    if (is_weighty && !at.node().find("why")) {
        proof.note(at, fmt::format("point \"{}\" has no why", point.id),
                   "write why = { en = \"…\", es = \"…\" } because a reading is limit or stop");
    }
}

// H-10: what can stop the machine is found before its engine runs.
void proof_order(Proof& proof, const Round& round, const Spot& at) {
    if (round.kind != RoundKind::before || round.stations.empty()) return;
    if (round.stations.front().engine) {
        proof.note(at.item("station", 0), "the engine runs at the first station",
                   "begin with a station whose engine is off");
    }
    bool has_run = false;
    for (std::size_t s = 0; s < round.stations.size(); ++s) {
        const Station& station = round.stations[s];
        has_run = has_run || station.engine;
        if (!has_run || station.engine) continue;
        for (std::size_t p = 0; p < station.points.size(); ++p) {
            if (!station.points[p].can_stop()) continue;
            proof.note(at.item("station", s).item("point", p),
                       fmt::format("point \"{}\" can stop the machine, needs no engine, and comes "
                                   "after the start",
                                   station.points[p].id),
                       "move it before the first station with engine = true");
        }
    }
}

void proof_answers(Proof& proof, const Round& round, const Spot& at) {
    std::size_t binary = 0;
    for (const auto& station : round.stations) {
        binary += static_cast<std::size_t>(
            std::count_if(station.points.begin(), station.points.end(), is_binary));
    }
    const std::size_t count = round.point_count();
    if (binary * 100 <= count * kBinaryPercentMax) return;
    proof.note(at, fmt::format("{} of {} points ask only for yes or no", binary, count),
               "give more points three answers beside \"cannot …\"; at most 30 % may have two");
}

void proof_round(Proof& proof, const Round& round, const Spot& at) {
    proof.known(round.machine_class, ids_of(proof.pack().classes, &MachineClass::id),
                at.key("class"), "class");
    std::vector<std::string> point_ids;
    std::vector<Spot> point_places;
    for (std::size_t s = 0; s < round.stations.size(); ++s) {
        const auto& points = round.stations[s].points;
        for (std::size_t p = 0; p < points.size(); ++p) {
            const Spot spot = at.item("station", s).item("point", p);
            proof_point(proof, round, points[p], spot);
            point_ids.push_back(points[p].id);
            point_places.push_back(spot);
        }
    }
    proof.unique(point_ids, point_places, "point");
    proof.unique(ids_of(round.stations, &Station::id),
                 places_of(at, "station", round.stations.size()), "station");
    proof_order(proof, round, at);
    proof_answers(proof, round, at);
    proof.screen_words(at);
}

}  // namespace

void proof_rounds(Proof& proof) {
    for (std::size_t i = 0; i < proof.pack().rounds.size(); ++i) {
        proof_round(proof, proof.pack().rounds[i], proof.places().rounds[i]);
    }
}

}  // namespace holdpin
