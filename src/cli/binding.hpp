// Makes a binder of records that are open. Where they can be sealed they are sealed first, so that
// the newest seal covers exactly what is handed over; where not, the binder says so when checked.
#pragma once

#include "binder/binder.hpp"
#include "cli/site_data.hpp"

namespace holdpin {

// Who writes papers into every binder.
std::vector<BinderWriter> binder_writers();

Result<BinderSummary> bind_site(OpenSite& site, const BinderScope& scope, const std::string& out,
                                const BinderProgress& progress);

}  // namespace holdpin
