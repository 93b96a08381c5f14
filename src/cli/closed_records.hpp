// What is left where the records of a kiosk cannot be opened: whether there ever were any, and the
// content of its sheets. Whoever starts a kiosk that was set up sees a page, not a line that nobody
// at a full screen can read.
#pragma once

#include <string>

#include "base/result.hpp"
#include "cli/paths.hpp"
#include "content_types/content.hpp"

namespace holdpin {

// Something lies in the data folder, or it cannot be looked into, or a seal lies outside: then what
// is missing was taken away. Else no site was set up here yet.
bool site_was_here(const std::string& data, const std::string& seal_copies);

// That of the site. Where its files or an adopted pack cannot be read: the program's own, of a
// site without a name. Error: invalid, if that is wanting, too.
Result<Content> content_left(const ContentDirs& dirs, const std::string& data);

}  // namespace holdpin
