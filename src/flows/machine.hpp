// One machine and one person: what holds it, what the person can do about it now, and taking it.
// The main action is the next useful thing: learn, walk the round, take the machine, give it back.
#pragma once

#include <string>

#include "flows/session.hpp"

namespace holdpin {

class MachineFlow final : public Flow {
  public:
    explicit MachineFlow(std::string plate, std::string room = "", bool just_released = false)
        : plate_(std::move(plate)), room_(std::move(room)), just_released_(just_released) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::string plate_;
    std::string room_;      // chosen for the release; empty: home room
    bool just_released_;
};

// The rooms of the site, the machine's own first; the one touched is where it will be used.
Result<Next> choose_room(Session& session, const std::string& plate);

// After a round before use: where no hold is left, the room is asked at once; else the holds show.
Result<Next> after_signing(Session& session, const std::string& plate);

}  // namespace holdpin
