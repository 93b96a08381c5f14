// Machines at the desk: hours and shift at a glance, service, inspection and tailpipe test entered,
// a lock put on, an override by two people.
#pragma once

#include "flows/session.hpp"

namespace holdpin {

class FleetDeskFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
};

class MachineDeskFlow final : public Flow {
  public:
    explicit MachineDeskFlow(std::string plate) : plate_(std::move(plate)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::string plate_;
};

}  // namespace holdpin
