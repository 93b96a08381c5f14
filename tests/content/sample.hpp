// A small pack and site that have no fault, as files in memory, for tests to break.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

#include "content/content.hpp"

namespace holdpin::sample {

Files pack();
Files assets();
Files site();

// The files with one piece of one of them replaced; the test fails where the piece is not there.
Files with(Files files, const std::string& name, std::string_view from, std::string_view to);

// The sample loaded with one piece of one file, of the pack or of the site, replaced.
Loaded load_with(const std::string& file, std::string_view from, std::string_view to);

// One thing broken in a file, and words of the fault that must be found for it.
struct Break {
    const char* name;
    const char* from;
    const char* to;
    const char* fault;
};
void check_breaks(const std::string& file, std::initializer_list<Break> breaks);

// Whether some fault of that file holds the words, in `what` or in `mend`.
bool has(const Faults& faults, std::string_view file, std::string_view words);
bool has_at(const Faults& faults, std::string_view file, int line);
// All faults as lines, for messages.
std::string lines(const Faults& faults);

}  // namespace holdpin::sample
