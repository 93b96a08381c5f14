// Reads rounds: stations, points, and what a point is answered with.
#include "content/draft.hpp"
#include "content/node_reader.hpp"
#include "content/read_parts.hpp"

namespace holdpin {
namespace {

const NodeReader::Names<NumberCheck> kChecks{{"none", NumberCheck::none},
                                             {"not-below-last", NumberCheck::not_below_last}};
// Which value of the machine a number updates, as the typed content names it.
const NodeReader::Names<std::string> kKept{{"hours", "hours"}, {"fuel", "fuel"}};

Reading read_reading(NodeReader& reader) {
    Reading reading;
    reading.id = reader.id("id");
    reading.label = reader.text("label");
    reading.outcome = reader.choice("outcome", names_up_to(Outcome::stop));
    reading.drawing = reader.id("drawing", Need::may);
    reading.finding = reader.text("finding", Need::may);
    reading.sheet = reader.id("sheet", Need::may);
    reader.done();
    return reading;
}

NumberPoint read_number(NodeReader& reader) {
    NumberPoint number;
    number.unit = reader.words("unit");
    number.min_tenths = reader.tenths("min");
    number.max_tenths = reader.tenths("max");
    number.keeps = reader.choice<std::string>("keeps", kKept, "");
    number.check = reader.choice<NumberCheck>("check", kChecks, NumberCheck::none);
    number.most_rise_tenths = reader.tenths("most_rise", 0);
    number.outside = reader.choice<Outcome>("outside", names_up_to(Outcome::stop), Outcome::note);
    number.low_tenths = reader.tenths("low", -1);
    number.finding = reader.text("finding", Need::may);
    reader.done();
    return number;
}

Point read_point(NodeReader& reader) {
    Point point;
    point.id = reader.id("id");
    point.question = reader.text("question");
    point.look = reader.text("look");
    point.why = reader.text("why", Need::may);
    point.picture = read_picture(reader);
    point.topic = reader.id("topic");
    point.footing = reader.id("footing");
    point.hazard = reader.choice<Hazard>("hazard", names_up_to(Hazard::electrical), Hazard::none);
    point.takeover = reader.flag("takeover", false);
    point.warnings = read_warnings(reader);
    for (auto& below : reader.tables("reading", Need::may)) {
        point.readings.push_back(read_reading(below));
    }
    if (auto below = reader.table("number", Need::may)) point.number = read_number(*below);
    reader.done();
    return point;
}

Station read_station(NodeReader& reader) {
    Station station;
    station.id = reader.id("id");
    station.name = reader.text("name");
    station.place = reader.text("place");
    station.engine = reader.flag("engine", false);
    for (auto& below : reader.tables("point", Need::must)) {
        station.points.push_back(read_point(below));
    }
    reader.done();
    return station;
}

}  // namespace

Round read_round(const Spot& file, Faults& faults) {
    NodeReader reader(file, faults);
    Round round;
    round.id = reader.id("id");
    round.kind = reader.choice("kind", names_up_to(RoundKind::after));
    round.machine_class = reader.id("class");
    round.title = reader.text("title");
    for (auto& below : reader.tables("station", Need::must)) {
        round.stations.push_back(read_station(below));
    }
    reader.done();
    return round;
}

}  // namespace holdpin
