// Findings at the desk, from the report to the machine's return to service.
//
//   state      event        guard       next        entry
//   open       repair       -           repaired    repair-stated
//   repaired   recheck      fine        rechecked   recheck-done
//   repaired   recheck      not fine    open        recheck-done
//   rechecked  return       -           closed      returned-to-service
//   open       allow        limit       open        limit-decided
//   open       return       note        closed      returned-to-service
//
// A repair never frees a machine by itself: somebody looks again, and somebody entitled signs the
// return (1910.178(q)(1), (q)(7), read in a secondary copy; re-check: site rule).
#pragma once

#include <array>

#include "flows/session.hpp"
#include "flows/table.hpp"

namespace holdpin {

enum class FindingStage { open, repaired, rechecked, closed };
enum class FindingEvent { repair, recheck_fine, recheck_bad, allow, give_back };
enum class FindingGuard { always, limit_only, note_only };
using FindingTableRow = Row3<FindingStage, FindingEvent, FindingGuard>;

inline constexpr std::array kFindingTable{
    FindingTableRow{FindingStage::open, FindingEvent::repair, FindingGuard::always, FindingStage::repaired,
                    "repair-stated"},
    FindingTableRow{FindingStage::repaired, FindingEvent::recheck_fine, FindingGuard::always, FindingStage::rechecked,
                    "recheck-done"},
    FindingTableRow{FindingStage::repaired, FindingEvent::recheck_bad, FindingGuard::always, FindingStage::open,
                    "recheck-done"},
    FindingTableRow{FindingStage::rechecked, FindingEvent::give_back, FindingGuard::always, FindingStage::closed,
                    "returned-to-service"},
    FindingTableRow{FindingStage::open, FindingEvent::allow, FindingGuard::limit_only, FindingStage::open,
                    "limit-decided"},
    FindingTableRow{FindingStage::open, FindingEvent::give_back, FindingGuard::note_only, FindingStage::closed,
                    "returned-to-service"},
};

FindingStage stage_of(const FindingRow& row);
bool may_follow(const FindingRow& row, FindingEvent event);

class FindingsFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
};

class FindingFlow final : public Flow {
  public:
    explicit FindingFlow(std::int64_t entry) : entry_(entry) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::int64_t entry_;
};

}  // namespace holdpin
