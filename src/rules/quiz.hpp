// Drawing and scoring a quiz. Every must-pass question is always asked and must be right; the cut
// counts for the rest. Who fails waits as long as the site says. A passed quiz is instruction,
// never qualification.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "content_types/content.hpp"

namespace holdpin {

// The questions of one sitting by index into quiz.questions, with the order of their choices.
struct DrawnQuestion {
    std::size_t question = 0;
    std::vector<std::size_t> order;  // a permutation of the choices
};
// All must-pass questions and enough others to make `quiz.draw`, shuffled.
std::vector<DrawnQuestion> draw_questions(const Quiz& quiz, Random& random);

struct QuizScore {
    int asked = 0;
    int right = 0;
    int must_pass_wrong = 0;
    int rest_percent = 100;  // of the questions that are not must-pass, rounded down
    bool passed = false;
};
// `answers[i]`: whether drawn question i was answered rightly.
QuizScore score(const Quiz& quiz, const std::vector<DrawnQuestion>& drawn,
                const std::vector<bool>& answers);

// From when a quiz may be tried again by whoever failed it.
struct QuizRetry {
    std::int64_t from_ms = 0;  // 0: at any time
    bool waits(std::int64_t now_ms) const { return now_ms < from_ms; }
};
// `failed_ms`: when it was failed, 0 where the last try was none or passed. `minutes`: the site's.
QuizRetry quiz_retry(std::int64_t failed_ms, int minutes);

}  // namespace holdpin
