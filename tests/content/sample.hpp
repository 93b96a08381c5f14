// A small pack and site that have no fault, as files in memory, for tests to break.
#pragma once

#include <string>
#include <string_view>

#include "content/content.hpp"

namespace holdpin::sample {

Files pack();
Files assets();
Files site();

// The files with one piece of one of them replaced; the test fails where the piece is not there.
Files with(Files files, const std::string& name, std::string_view from, std::string_view to);

// Whether some fault of that file holds the words, in `what` or in `mend`.
bool has(const Faults& faults, std::string_view file, std::string_view words);
bool has_at(const Faults& faults, std::string_view file, int line);
// All faults as lines, for messages.
std::string lines(const Faults& faults);

}  // namespace holdpin::sample
