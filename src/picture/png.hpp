// Writes a picture as a PNG file. Reading PNG is nobody's need here.
#pragma once

#include <string>

#include "base/result.hpp"
#include "picture/raster.hpp"

namespace holdpin {

// Errors: invalid (an empty picture, or fewer bytes than its size says), failed (the disk).
Result<void> write_png(const std::string& path, const Raster& raster);

}  // namespace holdpin
