#include "rules/quiz.hpp"

#include <algorithm>
#include <numeric>

namespace holdpin {
namespace {

// Fisher-Yates with our own random source: the same seed gives the same order everywhere.
template <typename T>
void shuffle(std::vector<T>& items, Random& random) {
    for (std::size_t i = items.size(); i > 1; --i) {
        std::swap(items[i - 1], items[random.below(static_cast<std::uint32_t>(i))]);
    }
}

}  // namespace

std::vector<DrawnQuestion> draw_questions(const Quiz& quiz, Random& random) {
    std::vector<std::size_t> chosen;
    std::vector<std::size_t> others;
    for (std::size_t i = 0; i < quiz.questions.size(); ++i) {
        (quiz.questions[i].must_pass ? chosen : others).push_back(i);
    }
    shuffle(others, random);
    const auto wanted = std::max(static_cast<std::size_t>(quiz.draw), chosen.size());
    const auto room = std::min(wanted - chosen.size(), others.size());
    chosen.insert(chosen.end(), others.begin(), others.begin() + static_cast<std::ptrdiff_t>(room));
    shuffle(chosen, random);

    std::vector<DrawnQuestion> drawn;
    for (const std::size_t index : chosen) {
        std::vector<std::size_t> order(quiz.questions[index].choices.size());
        std::iota(order.begin(), order.end(), 0U);
        shuffle(order, random);
        drawn.push_back({index, std::move(order)});
    }
    return drawn;
}

QuizScore score(const Quiz& quiz, const std::vector<DrawnQuestion>& drawn,
                const std::vector<bool>& answers) {
    QuizScore result;
    int rest = 0;
    int rest_right = 0;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        const bool right = i < answers.size() && answers[i];
        const bool must = quiz.questions[drawn[i].question].must_pass;
        ++result.asked;
        result.right += right ? 1 : 0;
        if (must) {
            result.must_pass_wrong += right ? 0 : 1;
        } else {
            ++rest;
            rest_right += right ? 1 : 0;
        }
    }
    result.rest_percent = rest == 0 ? 100 : rest_right * 100 / rest;
    result.passed = result.asked > 0 && result.must_pass_wrong == 0 &&
                    result.rest_percent >= quiz.pass_percent;
    return result;
}

QuizRetry quiz_retry(std::int64_t failed_ms, int minutes) {
    if (failed_ms == 0 || minutes == 0) return {};
    return {failed_ms + std::int64_t{minutes} * 60'000};
}

}  // namespace holdpin
