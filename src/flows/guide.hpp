// Reading a guide to its end and answering its quiz: instruction in its topics, no more.
//
//   state      event     guard       next      entry
//   reading    next      more        reading   (draft)
//   reading    next      too soon    waiting   (draft)
//   reading    next      last        asking    guide-read
//   asking     answer    -           told      (draft)
//   told       next      more        asking    (draft)
//   told       next      passed      passed    -
//   told       next      failed      failed    quiz-finished
//   passed     sign      -           done      quiz-finished
//   failed     again     -           reading   -
//   waiting    next      last        asking    guide-read
//   waiting    again     -           reading   -
//
// Who failed the quiz reads the guide again as often as they like; its questions come when the
// site's wait is over (`quiz_retry_minutes`).
// Every tap is a draft, stored before the next page is drawn; after a power cut the reader goes on
// at the same step or question. The result is signed with the PIN.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "flows/session.hpp"
#include "flows/table.hpp"
#include "rules/quiz.hpp"

namespace holdpin {

enum class GuideState { reading, asking, told, passed, failed, waiting, done };
enum class GuideEvent { next, answer, sign, again };
enum class GuideGuard { always, more, too_soon, last, passed, failed };
using GuideRow = Row3<GuideState, GuideEvent, GuideGuard>;

inline constexpr std::array kGuideTable{
    GuideRow{GuideState::reading, GuideEvent::next, GuideGuard::more, GuideState::reading, ""},
    GuideRow{GuideState::reading, GuideEvent::next, GuideGuard::too_soon, GuideState::waiting, ""},
    GuideRow{GuideState::reading, GuideEvent::next, GuideGuard::last, GuideState::asking,
             "guide-read"},
    GuideRow{GuideState::asking, GuideEvent::answer, GuideGuard::always, GuideState::told, ""},
    GuideRow{GuideState::told, GuideEvent::next, GuideGuard::more, GuideState::asking, ""},
    GuideRow{GuideState::told, GuideEvent::next, GuideGuard::passed, GuideState::passed, ""},
    GuideRow{GuideState::told, GuideEvent::next, GuideGuard::failed, GuideState::failed,
             "quiz-finished"},
    GuideRow{GuideState::passed, GuideEvent::sign, GuideGuard::always, GuideState::done,
             "quiz-finished"},
    GuideRow{GuideState::failed, GuideEvent::again, GuideGuard::always, GuideState::reading, ""},
    GuideRow{GuideState::waiting, GuideEvent::next, GuideGuard::last, GuideState::asking,
             "guide-read"},
    GuideRow{GuideState::waiting, GuideEvent::again, GuideGuard::always, GuideState::reading, ""},
};

class GuideFlow final : public Flow {
  public:
    // Goes on where this person left this guide, if its content is still the same.
    static Result<std::unique_ptr<Flow>> open(const Session& session, const std::string& guide);
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    struct Work {
        GuideState state = GuideState::reading;
        std::size_t at = 0;  // step, or drawn question
        std::vector<DrawnQuestion> drawn;
        std::vector<std::size_t> answers;  // chosen choice of each drawn question
    };
    GuideFlow(const Guide& guide, const Quiz& quiz, std::string person)
        : guide_(guide), quiz_(quiz), person_(std::move(person)) {}

    Page step_page(const Session& session) const;
    Page question_page(const Session& session) const;
    Page result_page(const Session& session) const;
    Page waiting_page(const Session& session) const;
    bool holds(GuideGuard guard, std::int64_t now_ms) const;
    std::vector<bool> rights() const;
    QuizScore scored() const;
    std::string draft_key() const;
    std::string draft_body() const;
    Result<void> keep(Session& session) const;
    Result<Next> take(Session& session, GuideEvent event, std::size_t choice = 0);
    Result<void> enter_read(Session& session);
    Result<void> enter_finished(Session& session);
    void take_up(const std::string& draft);

    const Guide& guide_;
    const Quiz& quiz_;
    std::string person_;
    QuizRetry retry_;
    Work work_;
};

}  // namespace holdpin
