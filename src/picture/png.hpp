// Writes a picture as a PNG file, and reads one that somebody else may have made: its size is
// looked at before anything is unpacked.
#pragma once

#include <string>

#include "base/result.hpp"
#include "picture/raster.hpp"

namespace holdpin {

// Errors: invalid (an empty picture, or fewer bytes than its size says), failed (the disk).
Result<void> write_png(const std::string& path, const Raster& raster);

struct PngSize {
    int width = 0;
    int height = 0;
};
inline constexpr int kMostPngSide = 4096;
// From the first bytes alone. Errors: absent, failed, invalid (no PNG, or a side above the most).
Result<PngSize> png_size(const std::string& path);
// Errors: as png_size, and invalid where it cannot be unpacked.
Result<Raster> read_png(const std::string& path);

}  // namespace holdpin
