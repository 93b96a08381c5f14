// What the pages of a round show; the moves are in round.cpp.

#include <algorithm>

#include "flows/plates.hpp"
#include "flows/round.hpp"
#include "rules/numbers.hpp"

namespace holdpin {

namespace {

constexpr int kFullGauge = 100;  // per cent
constexpr int kGaugeStep = 10;   // nobody reads a float gauge closer than that (common practice)

// A gauge of a cylinder is not typed: its marks are touched.
bool is_gauge(const NumberPoint& number) { return number.keeps == "fuel"; }

}  // namespace

Button RoundFlow::next_button(const Session& session) const {
    const Say say = session.say();
    const bool typed = point().number && !is_gauge(*point().number);
    const bool waiting = work_.state == RoundState::waiting || typed;
    return {"next", say("bar.next"),
            say(typed     ? "round.number-second"
                : waiting ? "round.next-second"
                          : "round.reading-moves-on"),
            waiting, say("round.choose-first")};
}

void RoundFlow::add_choice(const Session& session, Page& page) const {
    const Say say = session.say();
    const Answer* answer = answer_to(point());
    auto& body = std::get<ChoiceBody>(page.body);
    for (const Reading& reading : point().readings) {
        Tile tile;
        tile.id = "reading:" + reading.id;
        tile.label = say(reading.label);
        tile.drawing = reading.drawing;
        const bool chosen = answer != nullptr && answer->reading == reading.id;
        if (chosen) tile.state = TileState::chosen;
        if (chosen && reading.outcome != Outcome::fine) {
            body.remark = say("round.entered-" + std::string(name_of(reading.outcome)),
                              {{"finding", say(reading.finding)}, {"machine", plate_}});
            body.remark_is_held = reading.outcome == Outcome::stop;
        }
        body.tiles.push_back(std::move(tile));
    }
}

void RoundFlow::add_number(const Session& session, Page& page) const {
    const Say say = session.say();
    const NumberPoint& number = *point().number;
    NumberBody body;
    const Answer* answer = answer_to(point());
    const std::int64_t last = last_value(session, number);
    body.unit = number.unit;
    body.decimal = number.keeps == "hours";
    if (answer != nullptr) {
        body.start = tenths_text(answer->value_tenths);
    } else if (last >= 0) {
        // The whole hours stand there already; the last digit has to be read off the meter.
        body.start = std::to_string(last / 10) + ".";
    }
    if (is_gauge(number)) {
        for (int mark = 0; mark <= kFullGauge; mark += kGaugeStep) {
            body.marks.push_back(std::to_string(mark));
        }
    }
    if (last >= 0) body.last = say("round.last-value", {{"value", hours_text(last)}});
    if (!doubt_.empty()) {
        const auto value = parse_tenths(doubt_);
        const bool in_range =
            value.ok() && judge(number, value.value(), -1) != NumberJudgement::out_of_range;
        body.start = doubt_;
        body.remark = say(in_range ? "round.number-odd" : "round.number-range",
                          {{"value", doubt_ + " " + number.unit},
                           {"min", tenths_text(number.min_tenths)},
                           {"max", tenths_text(number.max_tenths)}});
    }
    page.body = std::move(body);
}

Page RoundFlow::point_page(const Session& session) const {
    const Say say = session.say();
    const Station& station = station_of(point());
    const auto number = &station - round_.stations.data() + 1;
    Page page = session.blank("round/" + plate_ + "/" + point().id);
    page.left = plate_ + " · " + say(round_.title);
    page.middle = say("round.station", {{"number", std::to_string(number)},
                                        {"count", std::to_string(round_.stations.size())},
                                        {"name", say(station.name)}});
    page.back = session.back_button();
    page.body = ChoiceBody{};
    if (point().number) {
        add_number(session, page);
    } else {
        add_choice(session, page);
    }
    const MachineClass* machine_class = session.pack().machine_class(round_.machine_class);
    const bool truck = machine_class != nullptr && machine_class->is_truck;
    const auto common = [&](auto& body) {
        body.progress = {static_cast<int>(work_.at), static_cast<int>(points_.size())};
        body.picture = say.picture(point().picture);
        body.picture.caption = say(station.place);
        body.question = say(point().question);
        body.look = say(point().look);
        body.footing = say.footing(point().footing, truck);
    };
    if (auto* body = std::get_if<NumberBody>(&page.body)) common(*body);
    if (auto* body = std::get_if<ChoiceBody>(&page.body)) {
        common(*body);
        body->warnings = say.warnings(point().warnings);
    }
    page.main = next_button(session);
    return page;
}

Page RoundFlow::review_page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("review/" + plate_);
    page.left = plate_ + " · " + say(round_.title);
    page.middle = say("round.review");
    ListBody body;
    body.heading = say("round.count", {{"points", std::to_string(points_.size())},
                                       {"findings", std::to_string(finding_count())}});
    body.remark = say(finding_count() == 0 ? "round.review-none" : "round.review-some");
    for (const Point* one : points_) {
        const Answer* answer = answer_to(*one);
        if (answer == nullptr || answer->finding == 0) continue;
        OpenFinding finding;
        finding.point = one->id;
        finding.reading = answer->reading;
        Row row;
        row.id = "withdraw:" + one->id;
        row.label = finding_title(session, plate_, finding);
        row.second = say(one->question);
        row.word = say("round.withdraw");
        row.mark = LugState::held;
        body.rows.push_back(std::move(row));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    page.main = {"sign", say("round.sign"), say("pin.second"), true, ""};
    return page;
}

Result<Page> RoundFlow::page(const Session& session) const {
    return work_.state == RoundState::reviewing || work_.state == RoundState::done
               ? review_page(session)
               : point_page(session);
}

}  // namespace holdpin
