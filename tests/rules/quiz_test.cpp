#include "rules/quiz.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

using namespace holdpin;

namespace {

// `must` must-pass questions spread among `rest` others, four choices each.
Quiz quiz_of(int must, int rest, int draw) {
    Quiz quiz;
    quiz.draw = draw;
    for (int i = 0; i < must + rest; ++i) {
        Question question;
        question.id = "q" + std::to_string(i);
        question.must_pass = i >= rest;
        question.choices.resize(4);
        question.choices[0].right = true;
        quiz.questions.push_back(question);
    }
    return quiz;
}

std::size_t must_pass_count(const Quiz& quiz, const std::vector<DrawnQuestion>& drawn) {
    return static_cast<std::size_t>(std::count_if(
        drawn.begin(), drawn.end(),
        [&](const DrawnQuestion& one) { return quiz.questions[one.question].must_pass; }));
}

std::vector<DrawnQuestion> draw(const Quiz& quiz, std::uint64_t seed) {
    SeededRandom random(seed);
    return draw_questions(quiz, random);
}

std::vector<std::size_t> indices(const std::vector<DrawnQuestion>& drawn) {
    std::vector<std::size_t> list;
    for (const DrawnQuestion& one : drawn) list.push_back(one.question);
    return list;
}

}  // namespace

TEST_CASE("every sitting has all must-pass questions, none twice, and as many as the quiz asks") {
    const Quiz quiz = quiz_of(3, 9, 6);
    for (std::uint64_t seed = 0; seed < 500; ++seed) {
        INFO("seed ", seed);
        const auto drawn = draw(quiz, seed);
        const auto list = indices(drawn);
        CHECK(drawn.size() == 6);
        CHECK(std::set(list.begin(), list.end()).size() == list.size());
        CHECK(must_pass_count(quiz, drawn) == 3);
    }
}

TEST_CASE("the choices of a question are mixed, none lost") {
    const Quiz quiz = quiz_of(2, 4, 6);
    for (std::uint64_t seed = 0; seed < 100; ++seed) {
        for (const DrawnQuestion& one : draw(quiz, seed)) {
            auto order = one.order;
            std::sort(order.begin(), order.end());
            CHECK(order == std::vector<std::size_t>{0, 1, 2, 3});
        }
    }
}

TEST_CASE("must-pass questions are asked even where they are more than the draw") {
    const auto drawn = draw(quiz_of(5, 4, 3), 1);
    CHECK(drawn.size() == 5);
    CHECK(must_pass_count(quiz_of(5, 4, 3), drawn) == 5);
}

TEST_CASE("a quiz with fewer questions than the draw asks all of them, and an empty one none") {
    CHECK(draw(quiz_of(1, 2, 6), 1).size() == 3);
    CHECK(draw(quiz_of(0, 0, 6), 1).empty());
}

TEST_CASE("the same seed gives the same sitting, other seeds give others") {
    const Quiz quiz = quiz_of(3, 9, 6);
    std::set<std::vector<std::size_t>> sittings;
    for (std::uint64_t seed = 0; seed < 50; ++seed) {
        const auto first = draw(quiz, seed);
        const auto second = draw(quiz, seed);
        REQUIRE(indices(first) == indices(second));
        for (std::size_t i = 0; i < first.size(); ++i) CHECK(first[i].order == second[i].order);
        sittings.insert(indices(first));
    }
    CHECK(sittings.size() > 40);
}

TEST_CASE("every question is drawn at some time, and no place is a must-pass question's own") {
    const Quiz quiz = quiz_of(2, 8, 5);
    std::set<std::size_t> seen;
    std::set<std::size_t> must_first;
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        const auto list = indices(draw(quiz, seed));
        seen.insert(list.begin(), list.end());
        for (std::size_t i = 0; i < list.size(); ++i) {
            if (quiz.questions[list[i]].must_pass) must_first.insert(i);
        }
    }
    CHECK(seen.size() == 10);
    CHECK(must_first.size() == 5);
}

TEST_CASE("one must-pass question answered wrongly fails the quiz, whatever the rest") {
    const Quiz quiz = quiz_of(2, 8, 10);
    const auto drawn = draw(quiz, 7);
    for (std::size_t wrong = 0; wrong < drawn.size(); ++wrong) {
        std::vector<bool> answers(drawn.size(), true);
        answers[wrong] = false;
        const QuizScore result = score(quiz, drawn, answers);
        const bool must = quiz.questions[drawn[wrong].question].must_pass;
        CHECK(result.asked == 10);
        CHECK(result.right == 9);
        CHECK(result.must_pass_wrong == (must ? 1 : 0));
        CHECK(result.rest_percent == (must ? 100 : 87));  // seven of eight, rounded down
        CHECK(result.passed == !must);
    }
}

TEST_CASE("the rest must reach the cut, and is rounded against the reader") {
    Quiz quiz = quiz_of(0, 5, 5);
    const auto drawn = draw(quiz, 1);
    const auto passed = [&](int right) {
        std::vector<bool> answers(5, false);
        std::fill_n(answers.begin(), right, true);
        return score(quiz, drawn, answers).passed;
    };
    CHECK(passed(5));
    CHECK(passed(4));  // 80 of 80
    CHECK_FALSE(passed(3));
    quiz.pass_percent = 81;
    CHECK_FALSE(passed(4));
    quiz.pass_percent = 0;
    CHECK(passed(0));
}

TEST_CASE("a quiz of must-pass questions alone is passed with all of them right") {
    const Quiz quiz = quiz_of(3, 0, 3);
    const auto drawn = draw(quiz, 1);
    CHECK(score(quiz, drawn, {true, true, true}).passed);
    CHECK(score(quiz, drawn, {true, true, true}).rest_percent == 100);
    CHECK_FALSE(score(quiz, drawn, {true, false, true}).passed);
}

TEST_CASE("an answer that was not given is wrong, and a quiz without questions is not passed") {
    const Quiz quiz = quiz_of(1, 2, 3);
    const auto drawn = draw(quiz, 1);
    CHECK_FALSE(score(quiz, drawn, {}).passed);
    CHECK(score(quiz, drawn, {}).right == 0);
    CHECK_FALSE(score(quiz, {}, {}).passed);
}

TEST_CASE("a quiz that was failed waits for the site's minutes, to the minute") {
    // How long: the site's rule, no source.
    const std::int64_t failed = 1795608300000;
    const QuizRetry retry = quiz_retry(failed, 45);
    CHECK(retry.waits(failed));
    CHECK(retry.waits(failed + 44 * 60'000));
    CHECK(retry.waits(failed + 45 * 60'000 - 1));
    CHECK_FALSE(retry.waits(failed + 45 * 60'000));
}

TEST_CASE("nobody waits for a quiz that was not failed, or where the site asks for no wait") {
    CHECK_FALSE(quiz_retry(0, 10'080).waits(1795608300000));
    CHECK_FALSE(quiz_retry(1795608300000, 0).waits(1795608300000));
}
