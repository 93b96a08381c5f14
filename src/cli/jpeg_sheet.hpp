// Data sheets as JPEG files: looked at before they are unpacked, unpacked by libjpeg-turbo's own
// program, run bounded and apart, and kept as a PNG. A file that is cut off or broken is an error,
// not half a picture. Not turned: a camera's note of which side was up is not read.
#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "flows/data_sheets.hpp"
#include "picture/raster.hpp"

namespace holdpin {

struct JpegSize {
    int width = 0;
    int height = 0;
};
inline constexpr int kMostJpegSide = 16'000;
// From the head of its frame. Error: invalid (no JPEG, a side above the most, colours for print).
Result<JpegSize> jpeg_size(std::string_view bytes);
// In how many eighths it is unpacked, so that no side is above 2000.
int jpeg_eighths(JpegSize size);
// What the program wrote, as binary PNM with 255 steps. Error: invalid.
Result<Raster> raster_of_pnm(std::string_view bytes);

struct JpegDrawing {
    std::string program;
    std::string path;
    std::string beside;  // the picture as it was unpacked; removed again
    std::string png;     // the result
    std::int64_t time_ms = 4'000;
};
Result<DrawnSheet> draw_jpeg(const JpegDrawing& drawing);

}  // namespace holdpin
