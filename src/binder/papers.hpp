// The printed documents of a binder: certificates, round sheets, holds and returns, inspections of
// lockout procedures, the summary. One pass over the entries finds what there is to print. With a
// person in the scope: that person's certificates, rounds and inspections; with a machine: its
// rounds, holds and inspections. The same records give the same bytes. Each is handed on as it is
// printed; what is in memory does not grow with the years, but for eight bytes a round and some
// more a finding.
#pragma once

#include "binder/binder.hpp"

namespace holdpin {

// A writer of the binder; paths begin with "papers/".
Result<void> papers(const BinderMaterial& material, const BinderSink& sink);

}  // namespace holdpin
