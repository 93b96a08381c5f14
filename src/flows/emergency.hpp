// "Problem or emergency": from every page, signed on or not. Emergency sheets on top, then the
// report of a problem and the engine that will not start. A machine is held the moment it is
// named; what it was and who said so is asked afterwards.
//
//   state      event      guard      next       entry
//   choosing   name       problem    asking     finding-entered      the machine is held at once
//   choosing   name       no-start   sheet      finding-entered      for a mechanic with lp-repair
//   asking     describe   -          over       finding-described
//   asking     leave      -          over       -
//   sheet      secure     -          over       finding-secured      what was done at once
//   sheet      leave      -          over       -
//
// No operator clears a no-start: see findings.hpp and rules/qualification.hpp (HSE notice, 2023).
#pragma once

#include <array>
#include <string>

#include "flows/session.hpp"
#include "flows/table.hpp"

namespace holdpin {

class EmergencyFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool needs_records() const override { return false; }
};

// What a sheet says, also where the records are closed and there is no session.
SheetBody sheet_body(const Say& say, const Site& site, const Sheet& sheet);
// A sheet with its back button and without a main action.
Result<Page> sheet_page(const Session& session, const std::string& sheet);

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

enum class ReportState { choosing, asking, sheet, over };
enum class ReportEvent { name, describe, secure, leave };
enum class ReportGuard { always, problem, no_start };
using ReportRow = Row3<ReportState, ReportEvent, ReportGuard>;

inline constexpr std::array kReportTable{
    ReportRow{ReportState::choosing, ReportEvent::name, ReportGuard::problem, ReportState::asking, "finding-entered"},
    ReportRow{ReportState::choosing, ReportEvent::name, ReportGuard::no_start, ReportState::sheet, "finding-entered"},
    ReportRow{ReportState::asking, ReportEvent::describe, ReportGuard::always, ReportState::over, "finding-described"},
    ReportRow{ReportState::asking, ReportEvent::leave, ReportGuard::always, ReportState::over, ""},
    ReportRow{ReportState::sheet, ReportEvent::secure, ReportGuard::always, ReportState::over, "finding-secured"},
    ReportRow{ReportState::sheet, ReportEvent::leave, ReportGuard::always, ReportState::over, ""},
};

std::unique_ptr<Flow> report_flow(const Session& session, ReportKind kind);

}  // namespace holdpin
