// Walking a round: before use, taking over within the shift, giving back, or closing a machine that
// somebody else did not give back.
//
//   state      event      guard      next       entry
//   asking     read       fine       asking     (draft)              moves on by itself
//   asking     read       finding    waiting    finding-entered      the machine is held at once
//   waiting    read       fine       asking     finding-withdrawn
//   waiting    read       last       reviewing  finding-withdrawn
//   waiting    read       finding    waiting    finding-withdrawn, finding-entered
//   waiting    next       more       asking     (draft)
//   waiting    next       last       reviewing  (draft)
//   asking     read       last       reviewing  (draft)              the last point was fine
//   reviewing  withdraw   -          asking     finding-withdrawn    the point is asked again
//   reviewing  sign       -          done       round-signed (and `returned`)
//
// Every tap is a draft stored before the next point is drawn; after a power cut the round goes on
// at the same point. A stop finding is withdrawn only until its tag hangs on the machine. A round
// whose content has changed meanwhile begins again.
#pragma once

#include <array>
#include <map>
#include <string>
#include <vector>

#include "flows/session.hpp"
#include "flows/table.hpp"

namespace holdpin {

enum class RoundPurpose { start, give_back, close_for_other };
const char* purpose_name(RoundPurpose purpose);  // as it is stored

enum class RoundState { asking, waiting, reviewing, done };
enum class RoundEvent { read, next, withdraw, sign };
enum class RoundGuard { always, fine_more, fine_last, finding, more, last };
using RoundRow = Row3<RoundState, RoundEvent, RoundGuard>;

inline constexpr std::array kRoundTable{
    RoundRow{RoundState::asking, RoundEvent::read, RoundGuard::fine_more, RoundState::asking, ""},
    RoundRow{RoundState::asking, RoundEvent::read, RoundGuard::fine_last, RoundState::reviewing,
             ""},
    RoundRow{RoundState::asking, RoundEvent::read, RoundGuard::finding, RoundState::waiting,
             "finding-entered"},
    RoundRow{RoundState::waiting, RoundEvent::read, RoundGuard::fine_more, RoundState::asking,
             "finding-withdrawn"},
    RoundRow{RoundState::waiting, RoundEvent::read, RoundGuard::fine_last, RoundState::reviewing,
             "finding-withdrawn"},
    RoundRow{RoundState::waiting, RoundEvent::read, RoundGuard::finding, RoundState::waiting,
             "finding-entered"},
    RoundRow{RoundState::waiting, RoundEvent::next, RoundGuard::more, RoundState::asking, ""},
    RoundRow{RoundState::waiting, RoundEvent::next, RoundGuard::last, RoundState::reviewing, ""},
    RoundRow{RoundState::reviewing, RoundEvent::withdraw, RoundGuard::always, RoundState::asking,
             "finding-withdrawn"},
    RoundRow{RoundState::reviewing, RoundEvent::sign, RoundGuard::always, RoundState::done,
             "round-signed"},
};

class RoundFlow final : public Flow {
  public:
    // Goes on with this person's unfinished round of the machine, or begins one.
    static Result<std::unique_ptr<Flow>> open(const Session& session, const std::string& plate,
                                              RoundPurpose purpose);
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    struct Answer {
        std::string reading;            // id; empty for a number
        std::int64_t value_tenths = 0;  // of a number
        std::int64_t at_ms = 0;
        std::int64_t finding = 0;       // entry; 0: fine
    };
    struct Work {
        RoundState state = RoundState::asking;
        std::size_t at = 0;  // index into points_
        std::int64_t started_ms = 0;
        bool takeover = false;
        std::map<std::string, Answer> answers;  // by point id
    };
    RoundFlow(const Round& round, std::string plate, std::string person, RoundPurpose purpose)
        : round_(round), plate_(std::move(plate)), person_(std::move(person)), purpose_(purpose) {}

    void choose_points();
    void take_up(const std::string& draft);
    std::string draft_key() const;
    std::string draft_body(const Session& session) const;
    Result<void> keep(Session& session) const;

    const Point& point() const { return *points_[work_.at]; }
    const Station& station_of(const Point& point) const;
    const Answer* answer_to(const Point& point) const;
    std::int64_t last_value(const Session& session, const NumberPoint& number) const;

    Page point_page(const Session& session) const;
    void add_choice(const Session& session, Page& page) const;
    void add_number(const Session& session, Page& page) const;
    Page review_page(const Session& session) const;
    Button next_button(const Session& session) const;

    bool holds(RoundGuard guard, Outcome outcome) const;
    Result<Next> read(Session& session, Answer answer, Outcome outcome);
    Result<Next> read_number(Session& session, const std::string& typed);
    Result<Next> read_tile(Session& session, const std::string& reading);
    Result<Next> go(Session& session, RoundEvent event);
    Result<Next> withdraw(Session& session, const std::string& point_id);
    Result<Next> back(Session& session);
    Result<Next> moved_on(Session& session);
    Result<Next> ask_signature(Session& session);
    Result<Next> sign(Session& session);
    Result<Fact> walked_fact(Session& session) const;
    Result<Fact> returned_fact(const Session& session) const;
    Result<Next> given_back(const Session& session) const;
    Fact finding_fact(const Answer& answer, Outcome outcome) const;
    Fact withdrawn_fact(std::int64_t finding) const;
    Result<bool> tag_hangs_for(const Session& session, std::int64_t finding) const;
    std::size_t finding_count() const;

    const Round& round_;
    std::string plate_;
    std::string person_;
    RoundPurpose purpose_;
    std::vector<const Point*> points_;
    Work work_;
    std::string doubt_;  // a number that was typed and needs a second look
};

// The round before use that the person signed on had left unfinished; null: none.
Result<std::unique_ptr<Flow>> unfinished_round(const Session& session);

}  // namespace holdpin
