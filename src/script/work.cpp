// The acts that do a whole piece of work: a round, a guide, a quiz.
#include <algorithm>

#include "base/text.hpp"
#include "script/runner.hpp"
#include "script/shown.hpp"

namespace holdpin {
namespace {

// More pages than any piece of work has: beyond, a script goes round in circles.
constexpr int kPagesMax = 300;
constexpr std::string_view kRound = "round/";
constexpr std::string_view kGuide = "guide/";
constexpr std::string_view kQuiz = "quiz/";

Error stuck(std::string what) { return {ErrorKind::invalid, std::move(what), "", ""}; }

std::string last_part(const std::string& id) { return split(id, '/').back(); }

bool has_target(const Page& page, const std::string& id) {
    const auto targets = targets_of(page);
    return std::any_of(targets.begin(), targets.end(),
                       [&](const PageTarget& one) { return one.id == id; });
}

// The point a page asks, in whichever round it stands with just these readings.
const Point* point_on(const Content& content, const Page& page) {
    const std::string id = last_part(page.id);
    for (const Round& round : content.pack.rounds) {
        const Point* point = round.find(id);
        if (point == nullptr) continue;
        const bool fits = std::all_of(
            point->readings.begin(), point->readings.end(),
            [&](const Reading& reading) { return has_target(page, "reading:" + reading.id); });
        const bool is_number = std::holds_alternative<NumberBody>(page.body);
        if (fits && is_number == point->number.has_value()) return point;
    }
    return nullptr;
}

std::string fine_reading(const Point& point) {
    for (const Reading& reading : point.readings) {
        if (reading.outcome == Outcome::fine) return reading.id;
    }
    return {};
}

bool is_answered(const Page& page) {
    const auto* body = std::get_if<ChoiceBody>(&page.body);
    return body != nullptr && page.main.enabled &&
           std::any_of(body->tiles.begin(), body->tiles.end(),
                       [](const Tile& tile) { return tile.state == TileState::chosen; });
}

// The last value that a page shows, or else the most that is possible; without a point where the
// pad has none. "Last value 1 284.6 h" gives 1284.6.
std::string fine_number(const Page& page, const NumberPoint& number) {
    const auto& body = std::get<NumberBody>(page.body);
    std::string digits;
    for (const char c : body.last) {
        if ((c >= '0' && c <= '9') || c == '.') digits += c;
    }
    if (digits.empty()) digits = tenths_text(number.max_tenths);
    return body.decimal ? digits : digits.substr(0, digits.find('.'));
}

const std::string* value_for(const std::vector<Pair>& pairs, const std::string& name) {
    for (const Pair& pair : pairs) {
        if (pair.name == name) return &pair.value;
    }
    return nullptr;
}

// A reading stands already: the round was left while it waited for Next.
bool has_reading(const Page& page) {
    const auto* choice = std::get_if<ChoiceBody>(&page.body);
    return choice != nullptr &&
           std::any_of(choice->tiles.begin(), choice->tiles.end(),
                       [](const Tile& tile) { return tile.state == TileState::chosen; });
}

}  // namespace

Result<void> Runner::answer(const Act& act) {
    for (const auto& [point, reading] : act.pairs) {
        // The point before may still wait for its Next.
        if (last_part(hands_.page().id) != point && hands_.page().main.enabled) TRY(go_on());
        const Page page = hands_.page();
        if (last_part(page.id) != point) return stuck("the point \"" + point + "\" is not asked");
        if (std::holds_alternative<NumberBody>(page.body)) {
            TRY(enter_number(page, reading));
        } else {
            TRY(tap("reading:" + reading));
        }
    }
    return {};
}

Result<void> Runner::walk(const Act& act) {
    if (!hands_.page().id.starts_with(kRound)) return stuck("no round is running");
    for (int pages = 0; pages < kPagesMax; ++pages) {
        const Page page = hands_.page();
        if (!page.id.starts_with(kRound)) return {};
        TRY(walk_point(act, page));
    }
    return stuck("the round does not end");
}

Result<void> Runner::walk_point(const Act& act, const Page& page) {
    const Point* point = point_on(world_.content, page);
    if (point == nullptr) return stuck("the content has no point for this page");
    if (point->number) {
        TRY(enter_number(page, number_for(act, *point, page)));
        // An odd number is asked twice, a number that is a finding waits for Next.
        for (int more = 0; more < 2 && hands_.page().id == page.id; ++more) TRY(go_on());
        return {};
    }
    if (has_reading(page)) return go_on();
    const std::string* other = value_for(act.pairs, point->id);
    // Answered before, by hand or before a power cut: the answer stays and the point waits.
    if (other == nullptr && is_answered(page)) return go_on();
    return read_tile(page, other == nullptr ? fine_reading(*point) : *other);
}

Result<void> Runner::read_tile(const Page& page, const std::string& reading) {
    TRY(tap("reading:" + reading));
    return hands_.page().id == page.id ? go_on() : Result<void>{};
}

// A gauge is not typed: its mark is touched.
Result<void> Runner::enter_number(const Page& page, const std::string& value) {
    const auto& body = std::get<NumberBody>(page.body);
    return body.marks.empty() ? enter(value) : tap("mark:" + value);
}

std::string Runner::number_for(const Act& act, const Point& point, const Page& page) {
    if (const std::string* other = value_for(act.pairs, point.id)) return *other;
    const auto given = act.values.find(point.number->keeps);
    if (given != act.values.end()) return given->second;
    return fine_number(page, *point.number);
}

Result<void> Runner::guide() {
    if (!hands_.page().id.starts_with(kGuide)) return stuck("no guide is open");
    for (int pages = 0; pages < kPagesMax; ++pages) {
        if (!hands_.page().id.starts_with(kGuide)) return {};
        TRY(go_on());
    }
    return stuck("the guide does not end");
}

Result<void> Runner::quiz(bool right) {
    if (!hands_.page().id.starts_with(kQuiz)) return stuck("no quiz is open");
    for (int pages = 0; pages < kPagesMax; ++pages) {
        const std::string id = hands_.page().id;
        if (!id.starts_with(kQuiz)) return {};
        const Quiz* quiz = world_.content.pack.quiz(split(id, '/').at(1));
        if (quiz == nullptr) return stuck("the content has no such quiz");
        for (const Question& question : quiz->questions) {
            if (question.id != last_part(id)) continue;
            const auto choice = std::find_if(
                question.choices.begin(), question.choices.end(),
                [&](const Choice& one) { return one.right == right; });
            TRY(tap("choice:" + std::to_string(choice - question.choices.begin())));
        }
        TRY(go_on());
    }
    return stuck("the quiz does not end");
}

}  // namespace holdpin
