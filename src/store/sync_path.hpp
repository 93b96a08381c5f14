// Asks the system to put a file or folder that was just written onto the disk.
#pragma once

#include <string>

#include "base/result.hpp"

namespace holdpin {

Result<void> sync_path(const std::string& path);
// The folder in which `path` stands, after something in it was renamed or made.
Result<void> sync_folder_of(const std::string& path);

}  // namespace holdpin
