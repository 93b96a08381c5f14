// A change of the content files that nobody had asked for: what changed, and the signature of
// somebody entitled that it may hold. Until then no machine is handed over.
#pragma once

#include "flows/session.hpp"

namespace holdpin {

// There must be such a change.
Result<Next> look_at_change(Session& session);

}  // namespace holdpin
