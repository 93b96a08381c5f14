// Machines and rooms at the desk: hours and shift at a glance, service and inspection entered,
// an override by two people, a room closed to engines or opened again.
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

class RoomsFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
};

}  // namespace holdpin
