// A job at a machine, guided while it is done (content/works/): one step at a time, in the order
// that rules/guided_work keeps. The machine is held from the first step to the last.
//
//   state      event      guard      next       entry
//   closed     open       -          asking     work-opened          the machine is held at once
//   asking     reply      more       asking     work-step-done
//   asking     reply      goes in    asking     work-step-done, lockout-opened
//   asking     reply      last       over       work-finished
//   asking     reply      leave      over       work-stopped         nothing is wrong with it
//   asking     reply      stop       over       work-stopped, finding-entered
//   asking     drop       untouched  over       work-stopped         opened by a slip of the hand
//   asking     again      changed    asking     work-opened          the steps have changed
//
// Every answer is an entry before the next step is shown, so that a power cut loses nothing:
// whoever goes on begins at the same step. An answer to another step has no row and no effect.
// Where an arm or a person goes in, the lockout of that job opens in the same transaction and the
// job waits: no answer counts until the lockout is closed; then its step is asked anew.
#pragma once

#include <array>
#include <string>

#include "flows/session.hpp"
#include "flows/table.hpp"
#include "records/works.hpp"
#include "rules/guided_work.hpp"

namespace holdpin {

enum class WorkState { closed, asking, over };
enum class WorkEvent { open, reply, drop, again };
enum class WorkGuard { always, more, goes_in, last, leave, stop, untouched, changed };
using WorkTableRow = Row3<WorkState, WorkEvent, WorkGuard>;

inline constexpr std::array kWorkTable{
    WorkTableRow{WorkState::closed, WorkEvent::open, WorkGuard::always, WorkState::asking, "work-opened"},
    WorkTableRow{WorkState::asking, WorkEvent::reply, WorkGuard::more, WorkState::asking, "work-step-done"},
    WorkTableRow{WorkState::asking, WorkEvent::reply, WorkGuard::goes_in, WorkState::asking, "work-step-done"},
    WorkTableRow{WorkState::asking, WorkEvent::reply, WorkGuard::last, WorkState::over, "work-finished"},
    WorkTableRow{WorkState::asking, WorkEvent::reply, WorkGuard::leave, WorkState::over, "work-stopped"},
    WorkTableRow{WorkState::asking, WorkEvent::reply, WorkGuard::stop, WorkState::over, "work-stopped"},
    WorkTableRow{WorkState::asking, WorkEvent::drop, WorkGuard::untouched, WorkState::over, "work-stopped"},
    WorkTableRow{WorkState::asking, WorkEvent::again, WorkGuard::changed, WorkState::asking, "work-opened"},
};

class WorkFlow final : public Flow {
  public:
    WorkFlow(std::string plate, std::string work)
        : plate_(std::move(plate)), work_(std::move(work)) {}
    // Begins the job, or goes on with it; a message that says why not.
    static Result<std::unique_ptr<Flow>> open(Session& session, const std::string& plate,
                                              const std::string& work);
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    Result<Next> reply(Session& session, const WorkReply& reply);
    Result<Next> drop(Session& session);

    std::string plate_;
    std::string work_;
};

// The job that this person had begun or gone on with; null: none, or a lockout comes before it.
Result<std::unique_ptr<Flow>> unfinished_work(const Session& session);

// The jobs that can be done at a machine, its wet floor and its tag.
class JobsFlow final : public Flow {
  public:
    explicit JobsFlow(std::string plate) : plate_(std::move(plate)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::string plate_;
};

}  // namespace holdpin
