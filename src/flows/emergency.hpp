// "Problem or emergency": from every page, signed on or not. Emergency sheets on top, then the
// report of a problem and the engine that will not start. A machine is held the moment it is
// named; what it was and who said so is asked afterwards.
#pragma once

#include <string>

#include "flows/session.hpp"

namespace holdpin {

class EmergencyFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool needs_records() const override { return false; }
};

class SheetFlow final : public Flow {
  public:
    explicit SheetFlow(std::string sheet) : sheet_(std::move(sheet)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool needs_records() const override { return false; }

  private:
    std::string sheet_;
};

// Chooses the machine, then holds it: a report of a problem, or an engine that will not start.
enum class ReportKind { problem, no_start };
std::unique_ptr<Flow> report_flow(const Session& session, ReportKind kind);

}  // namespace holdpin
