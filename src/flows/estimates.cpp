#include "flows/estimates.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "flows/pieces.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kSubject = "subject:";
constexpr std::string_view kEstimateOf = "room:";
constexpr std::string_view kLess = "less:";
constexpr std::string_view kMore = "more:";
constexpr std::string_view kValue = "value:";
constexpr double kSameValue = 1e-6;  // of a value: what counts as the same

std::string subject_name(const Say& say, Subject subject) {
    return say("estimates.subject-" + std::string(name_of(subject)));
}

// What is asked when a site has several rooms and none was given.
Result<Next> choose_room(const Session& session, Subject subject) {
    const Say say = session.say();
    GridBody body;
    body.heading = say("estimates.which-room");
    for (const Room& room : session.content().site.rooms) {
        Tile tile;
        tile.id = std::string(kEstimateOf) + room.id;
        tile.label = say(room.name);
        body.tiles.push_back(std::move(tile));
    }
    return Next::push(std::make_unique<PickFlow>(
        "estimates/room", std::move(body),
        [subject](Session& s, const std::string& tile) -> Result<Next> {
            return Next::done(TRY(EstimateFlow::open(s, subject, tile.substr(kEstimateOf.size()))));
        }));
}

}  // namespace

double next_on_ladder(double value, bool up) {
    constexpr std::array kRungs = {1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0};
    const double power = std::pow(10, std::floor(std::log10(value) + kSameValue));
    if (up) {
        for (const double rung : kRungs) {
            if (rung * power > value * (1 + kSameValue)) return rung * power;
        }
        return 12 * power;
    }
    for (auto rung = kRungs.rbegin(); rung != kRungs.rend(); ++rung) {
        if (*rung * power < value * (1 - kSameValue)) return *rung * power;
    }
    return 0.8 * power;
}

// ---- the subjects ---------------------------------------------------------------------------

Result<Page> EstimatesFlow::page(const Session& session) const {
    const Say say = session.say();
    Page page = session.blank("estimates");
    page.middle = say("estimates.title");
    GridBody body;
    body.heading = say("estimates.heading");
    body.remark = say("estimates.remark");
    for (const Subject subject : kSubjects) {
        Tile tile;
        tile.id = std::string(kSubject) + std::string(name_of(subject));
        tile.label = subject_name(say, subject);
        tile.second = say("estimates.second-" + std::string(name_of(subject)));
        body.tiles.push_back(std::move(tile));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    return page;
}

Result<Next> EstimatesFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    for (const Subject subject : kSubjects) {
        if (action.id != std::string(kSubject) + std::string(name_of(subject))) continue;
        if (room_.empty() && asks_for_room(subject) && session.content().site.rooms.size() > 1) {
            return choose_room(session, subject);
        }
        const auto& rooms = session.content().site.rooms;
        const std::string room = room_.empty() && !rooms.empty() ? rooms.front().id : room_;
        return Next::push(TRY(EstimateFlow::open(session, subject, room)));
    }
    return Next::stay();
}

// ---- one subject ----------------------------------------------------------------------------

EstimateFlow::EstimateFlow(Subject subject, std::string room, Units units,
                           std::vector<EstimateDial> dials)
    : subject_(subject), room_(std::move(room)), units_(units), dials_(std::move(dials)) {
    for (const EstimateDial& dial : dials_) {
        values_.push_back(units_.shown(dial.quantity, dial.start));
    }
}

Result<std::unique_ptr<Flow>> EstimateFlow::open(const Session& session, Subject subject,
                                                 const std::string& room) {
    auto dials = TRY(estimate_dials(session, subject, room));
    return std::unique_ptr<Flow>(
        new EstimateFlow(subject, room, Units(session.content().site.units == "us"),
                         std::move(dials)));
}

double EstimateFlow::least(std::size_t index) const {
    return units_.shown(dials_[index].quantity, dials_[index].least);
}

double EstimateFlow::most(std::size_t index) const {
    return units_.shown(dials_[index].quantity, dials_[index].most);
}

Dial EstimateFlow::dial_view(const Say& say, std::size_t index) const {
    const EstimateDial& dial = dials_[index];
    Dial view;
    view.id = dial.id;
    view.label = say("estimates.dial-" + dial.id);
    const double value = values_[index];
    view.value = dial.words.empty() ? units_.text_of_shown(dial.quantity, value)
                                    : say(dial.words[static_cast<std::size_t>(value)]);
    const double slack = kSameValue * std::max(1.0, std::abs(value));
    view.less = value > least(index) + slack;
    view.more = value < most(index) - slack;
    if (!view.less || !view.more) view.why_not = say("estimates.no-further");
    return view;
}

void EstimateFlow::step(std::size_t index, bool up) {
    const EstimateDial& dial = dials_[index];
    double& value = values_[index];
    const double own = units_.us() && dial.us_step > 0 ? dial.us_step : dial.step;
    if (own <= 0) {
        value = next_on_ladder(value, up);
    } else if (up) {
        value = (std::floor(value / own + kSameValue) + 1) * own;
    } else {
        value = (std::ceil(value / own - kSameValue) - 1) * own;
    }
    value = std::clamp(value, least(index), most(index));
}

Result<Page> EstimateFlow::page(const Session& session) const {
    const Say say = session.say();
    EstimateAsk ask{session, room_, units_, {}};
    for (std::size_t i = 0; i < values_.size(); ++i) {
        ask.values.push_back(units_.metric(dials_[i].quantity, values_[i]));
    }
    Page page = session.blank("estimate/" + std::string(name_of(subject_)));
    page.left = say("estimates.title");
    page.middle = subject_name(say, subject_);
    auto body = estimate(ask, subject_);
    EstimateBody shown;
    if (body.ok()) {
        shown = std::move(body).value();
    } else {
        shown.results = {say("estimates.outside")};
        shown.advice = say("estimates.outside-advice");
    }
    if (asks_for_room(subject_)) page.middle += " · " + session.room_name(room_);
    for (std::size_t i = 0; i < dials_.size(); ++i) shown.dials.push_back(dial_view(say, i));
    page.body = std::move(shown);
    page.back = session.back_button();
    return page;
}

// A word is picked, a number is typed.
Result<Next> EstimateFlow::ask_value(Session& session, std::size_t index) {
    const Say say = session.say();
    const EstimateDial& dial = dials_[index];
    const std::string label = say("estimates.dial-" + dial.id);
    if (!dial.words.empty()) {
        GridBody body;
        body.heading = label;
        for (const std::string& word : dial.words) {
            Tile tile;
            tile.id = word;
            tile.label = say(word);
            body.tiles.push_back(std::move(tile));
        }
        return Next::push(std::make_unique<PickFlow>(
            "estimate/pick/" + dial.id, std::move(body),
            [this, index](Session&, const std::string& picked) -> Result<Next> {
                const auto& words = dials_[index].words;
                const auto at = std::find(words.begin(), words.end(), picked);
                values_[index] = static_cast<double>(at - words.begin());
                return Next::done();
            }));
    }
    const NumberAsk ask{label,
                        say("estimates.range", {{"least", plain_number(least(index))},
                                                {"most", plain_number(most(index))}}),
                        units_.unit(dial.quantity), least(index) < 0};
    return Next::push(std::make_unique<NumberFlow>(
        "estimate/number/" + dial.id, ask, [this, index](Session& s, const std::string& typed) {
            return take_typed(s, index, typed);
        }));
}

Result<Next> EstimateFlow::take_typed(Session& session, std::size_t index,
                                      const std::string& typed) {
    const double value = TRY(parse_decimal(typed));
    const double slack = kSameValue * std::max(1.0, std::abs(value));
    if (value < least(index) - slack || value > most(index) + slack) {
        const Say say = session.say();
        return Next::push(refusal(session, say("estimates.out-of-range"),
                                  say("estimates.range", {{"least", plain_number(least(index))},
                                                          {"most", plain_number(most(index))}})));
    }
    values_[index] = std::clamp(value, least(index), most(index));
    return Next::done();
}

Result<Next> EstimateFlow::act(Session& session, const Action& action) {
    if (action.id == "back") return Next::back();
    for (std::size_t i = 0; i < dials_.size(); ++i) {
        if (action.id == std::string(kLess) + dials_[i].id) step(i, false);
        if (action.id == std::string(kMore) + dials_[i].id) step(i, true);
        if (action.id == std::string(kValue) + dials_[i].id) return ask_value(session, i);
    }
    return Next::stay();
}

}  // namespace holdpin
