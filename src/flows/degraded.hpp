// The sentences of a kiosk that cannot keep records: what is wrong, what mends it, and last the
// words of the program for whoever does. Of a failure that is none of the disk only the last.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "flows/say.hpp"

namespace holdpin {

std::vector<std::string> degraded_lines(const Say& say, const Error& error);

}  // namespace holdpin
