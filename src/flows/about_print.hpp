// One's own records as a document to take along: where to, then where it went or why it did not.
// For the person signed on, about nobody else. Nothing is entered: to look at what is stored about
// oneself needs nobody's leave and leaves no trace, and it works where nothing can be recorded.
//
// state    action          next
// asked    place:<path>    written, or not written
// written  close           what is stored about me
// not      again           asked
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "flows/binder_work.hpp"
#include "flows/session.hpp"

namespace holdpin {

// Makes the document and writes it; comes from outside.
class AboutPrinter {
  public:
    virtual ~AboutPrinter() = default;
    virtual std::vector<BinderPlace> places() = 0;
    // The path of the file, which is whole and on disk. Errors: full, read_only, absent (the place
    // is gone), refused (no leave to write there), damaged or failed.
    virtual Result<std::string> print(const Person& person, const std::string& folder) = 0;
};

class AboutPrintFlow final : public Flow {
  public:
    Result<Page> page(const Session& session) const override;
    Result<Next> act(Session& session, const Action& action) override;

  private:
    std::string written_;         // path; empty: not yet
    std::optional<Error> fault_;  // of the last attempt
};

}  // namespace holdpin
