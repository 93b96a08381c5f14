// The procedure of a class read through before it is used, where nobody has used it for a year:
// when that is due by the records, and the page that shows it whole.
#pragma once

#include <string>

#include "flows/session.hpp"
#include "rules/lockout.hpp"

namespace holdpin {

// Nobody has used the full lockout of this class, or inspected it, within a year.
Result<bool> review_is_due(const Session& session, const std::string& machine_class);

// What 1910.147(c)(4)(ii) asks a procedure to say, with every prop and every source of this lockout
// in order: to be read to its end and signed.
Page review_page(const Session& session, const Lockout& state);

}  // namespace holdpin
