// Keeping at the desk: how long each class of records is kept and why, and legal holds, which two
// people place on all records, on a person's or on a machine's, and lift again.
#pragma once

#include "flows/session.hpp"

namespace holdpin {

class KeepingFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
};

}  // namespace holdpin
