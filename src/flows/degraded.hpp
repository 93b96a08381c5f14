// What stands there when a kiosk cannot keep records: what is wrong, what mends it, and what is
// done until then. The words of the program follow only where they say more than the heading, and
// only in English, in which they are; a page has one language.
#pragma once

#include <optional>

#include "base/result.hpp"
#include "flows/page.hpp"
#include "flows/say.hpp"

namespace holdpin {

// Nothing where the failure is none of the disk or the records.
std::optional<MessageBody> degraded_body(const Say& say, const Error& error);

}  // namespace holdpin
