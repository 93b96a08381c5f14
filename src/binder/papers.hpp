// The printed documents of a binder: certificates, round sheets, holds and returns, inspections of
// lockout procedures, the summary. One pass over the entries finds what there is to print. With a
// person in the scope: that person's certificates and rounds; with a machine: its rounds, holds and
// inspections. The same records give the same bytes.
#pragma once

#include <vector>

#include "binder/binder.hpp"

namespace holdpin {

// A writer of the binder; paths begin with "papers/".
Result<std::vector<BinderFile>> papers(const BinderMaterial& material);

}  // namespace holdpin
