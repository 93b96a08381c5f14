// The cylinder register: taking one in (serial, collar date, last stamp, gas), refusing what is
// overdue, illegible or over the store's limit, and saying what became of each.
#pragma once

#include "flows/session.hpp"

namespace holdpin {

class CylindersFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
};

class CylinderFlow final : public Flow {
  public:
    explicit CylinderFlow(std::string serial) : serial_(std::move(serial)) {}
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::string serial_;
};

}  // namespace holdpin
