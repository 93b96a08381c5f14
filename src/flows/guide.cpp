#include "flows/guide.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>

#include "flows/estimate_sums.hpp"
#include "flows/pieces.hpp"
#include "records/records.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

// A guide is read for a class that has one of its topics; trucks and others differ in footing.
bool for_truck(const Session& session, const Guide& guide) {
    return std::any_of(
        session.pack().classes.begin(), session.pack().classes.end(), [&](const MachineClass& c) {
            return c.is_truck && std::any_of(c.topics.begin(), c.topics.end(), [&](const Topic& t) {
                       return t.guide == guide.id;
                   });
        });
}

// At the step that fits the props: what each carries by the figures of the class that reads it.
std::string figures_note(const Session& session, const Guide& guide, const Step& step) {
    const bool about_props =
        step.id == "fit-props" && std::find(guide.topics.begin(), guide.topics.end(),
                                            "raised-hopper") != guide.topics.end();
    if (!about_props) return "";
    for (const MachineClass& one : session.pack().classes) {
        const bool reads = std::any_of(one.topics.begin(), one.topics.end(),
                                       [&](const Topic& t) { return t.guide == guide.id; });
        if (reads && one.hopper) return prop_load_note(session, *one.hopper);
    }
    return "";
}

}  // namespace

Result<std::unique_ptr<Flow>> GuideFlow::open(const Session& session, const std::string& id) {
    const Guide* guide = session.pack().guide(id);
    const Quiz* quiz = guide == nullptr ? nullptr : session.pack().quiz(guide->quiz);
    if (quiz == nullptr) {
        return Error{ErrorKind::absent, "this guide or its quiz is not in the content", id,
                     "tell the author"};
    }
    std::unique_ptr<GuideFlow> flow(new GuideFlow(*guide, *quiz, session.person_id()));
    const int minutes = session.content().site.policy.quiz_retry_minutes;
    if (minutes != 0) {
        flow->retry_ =
            quiz_retry(TRY(quiz_failed_ms(session.db(), session.person_id(), quiz->id)), minutes);
    }
    const auto draft = TRY(find_draft(session.db(), flow->draft_key()));
    if (draft) flow->take_up(draft->body);
    return std::unique_ptr<Flow>(std::move(flow));
}

std::string GuideFlow::draft_key() const { return "guide/" + person_ + "/" + guide_.id; }

std::string GuideFlow::draft_body() const {
    Json drawn = Json::array();
    for (const DrawnQuestion& one : work_.drawn) drawn.push_back({one.question, one.order});
    return Json{{"state", static_cast<int>(work_.state)},
                {"at", work_.at},
                {"drawn", drawn},
                {"answers", work_.answers},
                {"steps", guide_.steps.size()},
                {"questions", quiz_.questions.size()}}
        .dump();
}

// A draft that does not fit the guide any more is let go: reading begins again.
void GuideFlow::take_up(const std::string& draft) {
    const Json body = Json::parse(draft, nullptr, false);
    if (!body.is_object() || body.value("steps", std::size_t{0}) != guide_.steps.size() ||
        body.value("questions", std::size_t{0}) != quiz_.questions.size()) {
        return;
    }
    work_.state = static_cast<GuideState>(body.value("state", 0));
    work_.at = body.value("at", std::size_t{0});
    work_.answers = body.value("answers", std::vector<std::size_t>());
    for (const Json& one : body.value("drawn", Json::array())) {
        work_.drawn.push_back(
            {one.at(0).get<std::size_t>(), one.at(1).get<std::vector<std::size_t>>()});
    }
}

Result<void> GuideFlow::keep(Session& session) const {
    return keep_draft(session.db(), {draft_key(), draft_body(), session.now()});
}

std::vector<bool> GuideFlow::rights() const {
    std::vector<bool> right;
    for (std::size_t i = 0; i < work_.answers.size(); ++i) {
        const Question& question = quiz_.questions[work_.drawn[i].question];
        right.push_back(question.choices[work_.answers[i]].right);
    }
    return right;
}

QuizScore GuideFlow::scored() const { return score(quiz_, work_.drawn, rights()); }

bool GuideFlow::holds(GuideGuard guard, std::int64_t now_ms) const {
    const bool reading = work_.state == GuideState::reading;
    const std::size_t count = reading ? guide_.steps.size() : work_.drawn.size();
    const bool more = work_.at + 1 < count;
    switch (guard) {
        case GuideGuard::always: return true;
        case GuideGuard::more: return more;
        case GuideGuard::too_soon: return !more && retry_.waits(now_ms);
        case GuideGuard::last: return !more && !retry_.waits(now_ms);
        case GuideGuard::passed: return !more && scored().passed;
        case GuideGuard::failed: return !more && !scored().passed;
    }
    return false;
}

Result<void> GuideFlow::enter_read(Session& session) {
    Fact fact;
    fact.kind = "guide-read";
    fact.by = {person_};
    fact.content = session.pack().digest("guide", guide_.id);
    fact.data = {{"person", person_}, {"guide", guide_.id}, {"language", session.say().language()}};
    work_.drawn = draw_questions(quiz_, session.mutable_world().random);
    work_.answers.clear();
    TRY(session.book().enter(fact, [&] { return keep(session); }));
    return {};
}

Result<void> GuideFlow::enter_finished(Session& session) {
    const QuizScore result = scored();
    Json answers = Json::array();
    for (std::size_t i = 0; i < work_.answers.size(); ++i) {
        const Question& question = quiz_.questions[work_.drawn[i].question];
        answers.push_back({{"question", question.id},
                           {"choice", work_.answers[i]},
                           {"right", question.choices[work_.answers[i]].right}});
    }
    Json data{{"person", person_},        {"quiz", quiz_.id},
              {"guide", guide_.id},       {"topics", guide_.topics},
              {"asked", result.asked},    {"right", result.right},
              {"must_pass_wrong", result.must_pass_wrong},
              {"passed", result.passed},  {"answers", answers}};
    Fact fact;
    if (result.passed) {
        fact = TRY(session.signed_fact("quiz-finished", person_, "answered-myself", data));
    } else {
        fact.kind = "quiz-finished";
        fact.by = {person_};
        fact.data = std::move(data);
    }
    fact.content = session.pack().digest("quiz", quiz_.id);
    const Entry entry = TRY(
        session.book().enter(fact, [&] { return drop_draft(session.db(), draft_key()); }));
    retry_ = quiz_retry(result.passed ? 0 : entry.at_ms,
                        session.content().site.policy.quiz_retry_minutes);
    return {};
}

Result<Next> GuideFlow::take(Session& session, GuideEvent event, std::size_t choice) {
    const auto row = step(kGuideTable, work_.state, event,
                          [&](GuideGuard g) { return holds(g, session.now()); });
    if (!row) return Next::stay();
    const Work before = work_;
    work_.state = row->to;
    if (event == GuideEvent::answer) work_.answers.push_back(choice);
    if (event == GuideEvent::next) work_.at = row->guard == GuideGuard::more ? work_.at + 1 : 0;
    if (event == GuideEvent::again) work_ = Work{};
    const auto stored = row->entry == "guide-read"      ? enter_read(session)
                        : row->entry == "quiz-finished" ? enter_finished(session)
                                                        : keep(session);
    if (!stored) {
        work_ = before;
        return stored.error();
    }
    return work_.state == GuideState::done ? Next::back() : Next::stay();
}

Page GuideFlow::step_page(const Session& session) const {
    const Say say = session.say();
    const Step& one = guide_.steps[work_.at];
    Page page = session.blank("guide/" + guide_.id + "/" + one.id);
    page.left = say("guide.left", {{"guide", say(guide_.title)}});
    page.middle = say("guide.step", {{"number", std::to_string(work_.at + 1)},
                                     {"count", std::to_string(guide_.steps.size())}});
    StepBody body;
    body.progress = {static_cast<int>(work_.at), static_cast<int>(guide_.steps.size())};
    body.picture = say.picture(one.picture);
    body.warnings = say.warnings(one.warnings);
    body.action = say(one.action);
    body.key_point_label = say("guide.key-point");
    body.key_point = say(one.key_point);
    body.reason_label = say("guide.because");
    body.reason = say(one.reason);
    body.note = figures_note(session, guide_, one);
    body.footing = say.footing(one.footing, for_truck(session, guide_));
    page.body = std::move(body);
    page.back = session.back_button();
    const bool more = work_.at + 1 < guide_.steps.size();
    page.main = {"next", say("guide.read"), say(more ? "guide.read-second" : "guide.read-last"),
                 true, ""};
    return page;
}

Page GuideFlow::question_page(const Session& session) const {
    const Say say = session.say();
    const DrawnQuestion& drawn = work_.drawn[work_.at];
    const Question& question = quiz_.questions[drawn.question];
    const bool told = work_.state == GuideState::told;
    Page page = session.blank("quiz/" + quiz_.id + "/" + question.id);
    page.left = say(quiz_.title);
    page.middle = say("quiz.question", {{"number", std::to_string(work_.at + 1)},
                                        {"count", std::to_string(work_.drawn.size())}});
    ChoiceBody body;
    body.progress = {static_cast<int>(work_.at), static_cast<int>(work_.drawn.size())};
    body.question = say(question.ask);
    if (question.must_pass) body.look = say("quiz.must-pass");
    for (const std::size_t index : drawn.order) {
        Tile tile;
        tile.id = "choice:" + std::to_string(index);
        tile.label = say(question.choices[index].text);
        const bool chosen = told && work_.answers[work_.at] == index;
        if (told && question.choices[index].right) tile.state = TileState::right;
        if (chosen && !question.choices[index].right) tile.state = TileState::wrong;
        tile.enabled = !told;
        body.tiles.push_back(std::move(tile));
    }
    if (told) {
        const bool right = rights().back();
        body.remark = say(right ? "quiz.right" : "quiz.wrong") + " " + say(question.why);
        body.remark_is_held = !right;
        body.footing = say.footing(question.footing, for_truck(session, guide_));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    const std::string first = say("quiz.answer-first");
    page.main = {"next", say("bar.next"), told ? "" : first, told, first};
    return page;
}

Page GuideFlow::result_page(const Session& session) const {
    const Say say = session.say();
    const bool passed = work_.state == GuideState::passed;
    const QuizScore result = scored();
    Page page = session.blank("quiz-result/" + quiz_.id);
    page.left = say(quiz_.title);
    MessageBody body;
    body.mark = passed ? LugState::open : LugState::due;
    body.heading = say(passed ? "quiz.passed" : "quiz.not-passed");
    body.lines = {say("quiz.score", {{"right", std::to_string(result.right)},
                                     {"asked", std::to_string(result.asked)}}),
                  say(passed ? "quiz.passed-line" : "quiz.not-passed-line")};
    if (result.must_pass_wrong > 0) body.lines.push_back(say("quiz.must-pass-wrong"));
    if (retry_.waits(session.now())) {
        body.lines.push_back(say("quiz.opens-again", {{"time", session.when(retry_.from_ms)}}));
    }
    page.body = std::move(body);
    page.back = session.back_button();
    page.main = passed ? Button{"sign", say("quiz.sign"), say("pin.second"), true, ""}
                       : Button{"again", say("quiz.again"), say("quiz.again-second"), true, ""};
    return page;
}

Page GuideFlow::waiting_page(const Session& session) const {
    const Say say = session.say();
    const bool waits = retry_.waits(session.now());
    Page page = session.blank("quiz-waits/" + quiz_.id);
    page.left = say(quiz_.title);
    MessageBody body;
    body.mark = waits ? LugState::held : LugState::open;
    body.heading = say(waits ? "quiz.too-soon" : "quiz.open-now");
    if (waits) {
        body.lines = {say("quiz.opens-again", {{"time", session.when(retry_.from_ms)}}),
                      say("quiz.meanwhile")};
    }
    page.body = std::move(body);
    page.back = session.back_button();
    page.main = waits ? Button{"again", say("quiz.again"), say("quiz.again-second"), true, ""}
                      : Button{"next", say("quiz.begin"), say("quiz.begin-second"), true, ""};
    return page;
}

Result<Page> GuideFlow::page(const Session& session) const {
    switch (work_.state) {
        case GuideState::reading: return step_page(session);
        case GuideState::asking:
        case GuideState::told: return question_page(session);
        case GuideState::waiting: return waiting_page(session);
        case GuideState::passed:
        case GuideState::failed:
        case GuideState::done: break;
    }
    return result_page(session);
}

Result<Next> GuideFlow::act(Session& session, const Action& action) {
    if (action.id == "back") {
        // Reading goes back a step; a question once drawn is answered before anything else.
        if (work_.state != GuideState::reading || work_.at == 0) return Next::back();
        --work_.at;
        return Next::stay();
    }
    if (action.id == "next") return take(session, GuideEvent::next);
    if (action.id == "again") return take(session, GuideEvent::again);
    if (action.id == "sign" && work_.state == GuideState::passed) {
        return Next::push(std::make_unique<SignFlow>(
            *session.person(), session.say()("quiz.sign"),
            session.say()("quiz.meaning", {{"quiz", session.say()(quiz_.title)}}),
            [this](Session& s) -> Result<Next> {
                TRY(take(s, GuideEvent::sign));
                return Next::finish();
            }));
    }
    constexpr std::string_view kChoice = "choice:";
    if (work_.state == GuideState::asking && action.id.starts_with(kChoice)) {
        const std::string number = action.id.substr(kChoice.size());
        std::size_t choice = 0;
        std::from_chars(number.data(), number.data() + number.size(), choice);
        if (choice < quiz_.questions[work_.drawn[work_.at].question].choices.size()) {
            return take(session, GuideEvent::answer, choice);
        }
    }
    return Next::stay();
}

}  // namespace holdpin
