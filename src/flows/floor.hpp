// The floor: every machine as a plate, with nobody signed on or with one person choosing.
// Signing on is the badge alone; a signature, and the desk, ask for the PIN.
#pragma once

#include "flows/session.hpp"

namespace holdpin {

class FloorFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
};

// Signs off. A test run does not wait for whoever has gone: its key holder hears first when the
// alarm comes.
Result<Next> leave_kiosk(Session& session);
// Opens the session of a person: entry `signed-on`, then what became of their reports, then `after`
// if given, else what they had left unfinished.
Result<Next> sign_on(Session& session, const Person& person, std::unique_ptr<Flow> after = nullptr);
// The same by a badge that a scanner sent while no typing was asked; an unknown one is asked anew.
Result<Next> sign_on_scanned(Session& session, const std::string& badge,
                             std::unique_ptr<Flow> after = nullptr);

}  // namespace holdpin
