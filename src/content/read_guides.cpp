// Reads guides, quizzes and emergency sheets, and the pieces shared with rounds.
#include "content/draft.hpp"
#include "content/node_reader.hpp"
#include "content/read_parts.hpp"

namespace holdpin {
namespace {

const NodeReader::Names<Severity> kSeverities{
    {"death", Severity::death}, {"injury", Severity::injury}, {"property", Severity::property}};
const NodeReader::Names<Probability> kProbabilities{{"could", Probability::could},
                                                    {"will", Probability::will}};
constexpr Range kPercent{1, 100};
constexpr Range kDraw{1, 30};

Step read_step(NodeReader& reader) {
    Step step;
    step.id = reader.id("id");
    step.action = reader.text("action");
    step.key_point = reader.text("key_point");
    step.reason = reader.text("reason");
    step.picture = read_picture(reader);
    step.footing = reader.id("footing");
    step.body_in_zone = reader.flag("body_in_zone", false);
    step.warnings = read_warnings(reader);
    reader.done();
    return step;
}

Choice read_choice(NodeReader& reader) {
    Choice choice;
    choice.text = reader.text("text");
    choice.right = reader.flag("right", false);
    reader.done();
    return choice;
}

Question read_question(NodeReader& reader) {
    Question question;
    question.id = reader.id("id");
    question.ask = reader.text("ask");
    question.why = reader.text("why");
    question.must_pass = reader.flag("must_pass", false);
    question.footing = reader.id("footing");
    for (auto& below : reader.tables("choice", Need::must)) {
        question.choices.push_back(read_choice(below));
    }
    reader.done();
    return question;
}

std::vector<Text> read_lines(NodeReader& reader, std::string_view key) {
    std::vector<Text> lines;
    for (auto& below : reader.tables(key, Need::must)) {
        lines.push_back(below.text("text"));
        below.done();
    }
    return lines;
}

}  // namespace

Picture read_picture(NodeReader& reader) {
    Picture picture;
    if (auto below = reader.table("picture", Need::may)) {
        picture.file = below->id("file");
        picture.parts = below->ids("parts", Need::may);
        below->done();
    }
    return picture;
}

std::vector<Warning> read_warnings(NodeReader& reader) {
    std::vector<Warning> warnings;
    for (auto& below : reader.tables("warning", Need::may)) {
        Warning warning;
        warning.severity = below.choice("severity", kSeverities);
        warning.probability = below.choice("probability", kProbabilities);
        warning.hazard = below.text("hazard");
        warning.consequence = below.text("consequence");
        warning.avoid = below.text("avoid");
        warning.footing = below.id("footing");
        below.done();
        warnings.push_back(std::move(warning));
    }
    return warnings;
}

Guide read_guide(const Spot& file, Faults& faults) {
    NodeReader reader(file, faults);
    Guide guide;
    guide.id = reader.id("id");
    guide.title = reader.text("title");
    guide.intro = reader.text("intro");
    guide.topics = reader.ids("topics");
    guide.quiz = reader.id("quiz");
    for (auto& below : reader.tables("step", Need::must)) guide.steps.push_back(read_step(below));
    reader.done();
    return guide;
}

Quiz read_quiz(const Spot& file, Faults& faults) {
    NodeReader reader(file, faults);
    Quiz quiz;
    quiz.id = reader.id("id");
    quiz.title = reader.text("title");
    quiz.draw = reader.whole("draw", kDraw);
    quiz.pass_percent = reader.whole("pass_percent", kPercent);
    quiz.cut_basis = reader.text("cut_basis");
    for (auto& below : reader.tables("question", Need::must)) {
        quiz.questions.push_back(read_question(below));
    }
    reader.done();
    return quiz;
}

Sheet read_sheet(const Spot& file, Faults& faults) {
    NodeReader reader(file, faults);
    Sheet sheet;
    sheet.id = reader.id("id");
    sheet.order = reader.whole("order", {1, 99});
    sheet.title = reader.text("title");
    sheet.first = reader.text("first");
    sheet.tell = reader.text("tell");
    sheet.drawing = reader.id("drawing", Need::may);
    sheet.footing = reader.id("footing");
    sheet.eyewash = reader.flag("eyewash", false);
    sheet.act = read_lines(reader, "act");
    sheet.never = read_lines(reader, "never");
    reader.done();
    return sheet;
}

}  // namespace holdpin
