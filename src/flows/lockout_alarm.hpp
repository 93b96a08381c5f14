// What comes up by itself around lockouts: the time to look again has passed, and everybody has to
// leave the zone; and a person whose lock was taken off is told before anything else they do.
#pragma once

#include <string>

#include "flows/session.hpp"

namespace holdpin {

// Enters what was missed, and names the machines whose zone has to be left. Done before each page
// and each action.
Result<std::vector<std::string>> missed_lockouts(Session& session);
// When the next look is due; 0: none.
Result<std::int64_t> next_lockout_due(const Session& session);

// Stays on top until somebody has seen everybody out.
class LeaveZoneFlow final : public Flow {
  public:
    explicit LeaveZoneFlow(std::string plate) : plate_(std::move(plate)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_alarm() const override { return true; }

  private:
    std::string plate_;
};

// What a person has to acknowledge before they go on; null: nothing.
Result<std::unique_ptr<Flow>> removals_told(const Session& session, const std::string& person);

}  // namespace holdpin
