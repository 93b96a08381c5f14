// The binder at the desk: period, place, progress that can be cancelled, result with path, size and
// witness code. For who may read records. The work goes on while others use the kiosk; whoever may
// see it finds its progress or its result here.
//
// state    action            next
// idle     period:<id>       place is asked
// idle     place:<path>      running; entry `binder-asked`
// running  cancel            cancelled
// running  back              the desk; the work goes on
// done, cancelled, failed    close: idle, the desk
#pragma once

#include <string>

#include "flows/session.hpp"

namespace holdpin {

class BinderDeskFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    Page period_page(const Session& session) const;
    Page place_page(const Session& session) const;
    Result<Next> begin(Session& session, const std::string& folder);
    std::string period_;  // "all", "year", "month"; empty: not chosen
};

}  // namespace holdpin
