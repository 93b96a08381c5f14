// The paper shift book: the witness code that is written into it by hand when the shift changes,
// and a code typed back from it. A code that fits says that the entries under it are those of that
// day; one that does not puts the records in doubt, if somebody entitled read it twice.
#pragma once

#include <string>

#include "flows/session.hpp"

namespace holdpin {

// Within the minutes before and after a change of shift in which the code is to be written down.
bool is_shift_change(const Session& session);
// "Shift book: K7DM-3XQA @ 1 234", of the newest seal; empty where there is none or it is in doubt.
Result<std::string> shift_book_line(const Session& session);

class ShiftBookFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;
    bool is_piece() const override { return true; }

  private:
    Result<Next> fits(Session& session, std::uint64_t size, const std::string& code);
    Result<Next> fits_not(Session& session, const std::string& code);
    std::string remark_;
    std::string read_once_;  // a code that was not found the first time
};

// Two people, one of them entitled to return to service, say that the records were looked at.
Result<Next> lift_ledger_doubt(const Session& session);

}  // namespace holdpin
