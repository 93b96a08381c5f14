// Checks of guides, quizzes and emergency sheets.
#include <fmt/format.h>

#include <algorithm>

#include "content/proofreader.hpp"
#include "content/text_rules.hpp"

namespace holdpin {
namespace {

constexpr int kSentenceWordsMax = 20;
constexpr int kActionSentencesMax = 2;
constexpr std::size_t kQuestionsMin = 12;

void proof_sentences(Proof& proof, const Text& text, const Spot& at, std::string_view name) {
    for (const auto& [language, words] : text.by_language) {
        const SentenceCount count = count_sentences(words);
        // H-25: short sentences for people who read little.
        if (count.longest_words > kSentenceWordsMax) {
            proof.note(at.key(name).key(language),
                       fmt::format("\"{}\" has a sentence of {} words", name, count.longest_words),
                       "use at most 20 words a sentence");
        }
        // A question before it ("It leaks again?") is a condition, not something to do.
        if (name == "action" && count.statements > kActionSentencesMax) {
            proof.note(at.key(name).key(language),
                       fmt::format("\"action\" says {} things to do", count.statements),
                       "use one sentence or two, or make a further step");
        }
    }
}

bool is_lockout_footing(const std::string& id) {
    return id.starts_with("osha-147") || id.starts_with("wa-lockout");
}

// A body goes into a danger zone only after a step that locks the machine out.
void proof_zone(Proof& proof, const Guide& guide, std::size_t step, const Spot& at) {
    if (!guide.steps[step].body_in_zone) return;
    const auto end = guide.steps.begin() + static_cast<std::ptrdiff_t>(step);
    const bool is_locked = std::any_of(guide.steps.begin(), end, [](const Step& before) {
        return is_lockout_footing(before.footing);
    });
    if (is_locked) return;
    proof.note(at.key("body_in_zone"),
               fmt::format("step \"{}\" puts a body into a danger zone without a lockout before it",
                           guide.steps[step].id),
               "put a step before it whose footing begins with osha-147 or wa-lockout");
}

void proof_steps(Proof& proof, const Guide& guide, const Spot& at) {
    for (std::size_t i = 0; i < guide.steps.size(); ++i) {
        const Step& step = guide.steps[i];
        const Spot spot = at.item("step", i);
        proof.footing(step.footing, spot);
        proof.picture(step.picture, spot);
        proof.warnings(step.warnings, spot);
        proof_sentences(proof, step.action, spot, "action");
        proof_sentences(proof, step.key_point, spot, "key_point");
        proof_sentences(proof, step.reason, spot, "reason");
        proof_zone(proof, guide, i, spot);
    }
    proof.unique(ids_of(guide.steps, &Step::id), places_of(at, "step", guide.steps.size()), "step");
}

// A topic that a guide teaches names the guide in turn.
void proof_guide_topics(Proof& proof, const Guide& guide, const Spot& at) {
    for (const auto& id : guide.topics) {
        std::vector<std::string> all;
        bool leads_here = false;
        for (const auto& machine : proof.pack().classes) {
            for (const auto& topic : machine.topics) {
                all.push_back(topic.id);
                leads_here = leads_here || (topic.id == id && topic.guide == guide.id);
            }
        }
        if (proof.known(id, all, at.key("topics"), "topic") && !leads_here) {
            proof.note(at.key("topics"), fmt::format("topic \"{}\" names another guide", id),
                       fmt::format("write guide = \"{}\" there or take the topic out", guide.id));
        }
    }
    if (guide.topics.empty() && at.node().find("topics")) {
        proof.note(at.key("topics"), "the guide teaches no topic", "name at least one topic");
    }
}

void proof_choices(Proof& proof, const Question& question, const Spot& at) {
    const auto right = std::count_if(question.choices.begin(), question.choices.end(),
                                     [](const Choice& choice) { return choice.right; });
    const std::size_t count = question.choices.size();
    if (count != 3 && count != 4) {
        proof.note(at, fmt::format("question \"{}\" has {} choices", question.id, count),
                   "give 3 or 4");
    }
    if (right != 1) {
        proof.note(at, fmt::format("question \"{}\" has {} right choices", question.id, right),
                   "mark exactly one with right = true");
    }
}

void proof_quiz_counts(Proof& proof, const Quiz& quiz, const Spot& at) {
    const std::size_t count = quiz.questions.size();
    const auto must = std::count_if(quiz.questions.begin(), quiz.questions.end(),
                                    [](const Question& question) { return question.must_pass; });
    if (count < kQuestionsMin) {
        proof.note(at, fmt::format("the quiz has {} questions", count),
                   fmt::format("write at least {}", kQuestionsMin));
    }
    if (static_cast<std::size_t>(quiz.draw) > count) {
        proof.note(at.key("draw"),
                   fmt::format("{} of {} questions cannot be drawn", quiz.draw, count),
                   "lower draw or write more questions");
    }
    if (must > quiz.draw) {
        proof.note(at.key("draw"),
                   fmt::format("{} must-pass questions do not fit into {} drawn", must, quiz.draw),
                   "raise draw or mark fewer as must_pass");
    }
    const bool is_used = std::any_of(proof.pack().guides.begin(), proof.pack().guides.end(),
                                     [&](const Guide& guide) { return guide.quiz == quiz.id; });
    if (!is_used && !quiz.id.empty()) {
        proof.note(at, fmt::format("no guide leads to the quiz \"{}\"", quiz.id),
                   "name it in a guide or take it out");
    }
}

}  // namespace

void proof_guides(Proof& proof) {
    const auto quizzes = ids_of(proof.pack().quizzes, &Quiz::id);
    for (std::size_t i = 0; i < proof.pack().guides.size(); ++i) {
        const Guide& guide = proof.pack().guides[i];
        const Spot& at = proof.places().guides[i];
        proof.known(guide.quiz, quizzes, at.key("quiz"), "quiz");
        proof_guide_topics(proof, guide, at);
        proof_steps(proof, guide, at);
        proof.screen_words(at);
    }
}

void proof_quizzes(Proof& proof) {
    for (std::size_t i = 0; i < proof.pack().quizzes.size(); ++i) {
        const Quiz& quiz = proof.pack().quizzes[i];
        const Spot& at = proof.places().quizzes[i];
        proof_quiz_counts(proof, quiz, at);
        for (std::size_t q = 0; q < quiz.questions.size(); ++q) {
            proof.footing(quiz.questions[q].footing, at.item("question", q));
            proof_choices(proof, quiz.questions[q], at.item("question", q));
        }
        proof.unique(ids_of(quiz.questions, &Question::id),
                     places_of(at, "question", quiz.questions.size()), "question");
        proof.screen_words(at);
    }
}

void proof_sheets(Proof& proof) {
    for (std::size_t i = 0; i < proof.pack().sheets.size(); ++i) {
        const Sheet& sheet = proof.pack().sheets[i];
        proof.footing(sheet.footing, proof.places().sheets[i]);
        proof.drawing(sheet.drawing, proof.places().sheets[i]);
        proof.screen_words(proof.places().sheets[i]);
    }
}

}  // namespace holdpin
