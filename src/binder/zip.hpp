// A folder as one zip file, and back. Written in the order of the names, with one time for all, so
// that the same folder gives the same bytes. Files are streamed.
#pragma once

#include <functional>
#include <string>

#include "base/result.hpp"

namespace holdpin {

// Every file below `dir` into `zip`, which is emptied first. `go_on` is asked before each file.
// Errors: full, failed, refused (`go_on` said no).
Result<void> zip_folder(const std::string& dir, const std::string& zip, std::int64_t time_ms,
                        const std::function<bool()>& go_on);
// Into the empty folder `dir`. Error: damaged, also for a name that would leave the folder and for
// anything but files.
Result<void> unzip_into(const std::string& zip, const std::string& dir);

}  // namespace holdpin
