// Writes what is stored about one person as a PDF, where binders may be written too. The file is
// whole or not there, and takes no other's place. Runs while the page waits: the records of one
// person are few.
#pragma once

#include <string>
#include <vector>

#include "cli/site_data.hpp"
#include "flows/about_print.hpp"

namespace holdpin {

Result<std::string> about_pdf(OpenSite& site, const Person& person);

class AboutWriter final : public AboutPrinter {
  public:
    // `binders` says where may be written to.
    AboutWriter(OpenSite& site, BinderWork& binders) : site_(site), binders_(binders) {}
    std::vector<BinderPlace> places() override { return binders_.places(); }
    Result<std::string> print(const Person& person, const std::string& folder) override;

  private:
    OpenSite& site_;
    BinderWork& binders_;
};

}  // namespace holdpin
