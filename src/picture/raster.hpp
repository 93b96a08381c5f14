// A picture in memory: rows from the top, four bytes a pixel in the order red, green, blue, alpha,
// with straight (not premultiplied) alpha, as a texture upload and a PNG reader expect it.
// Cairo works in premultiplied BGRA; the two functions here are the only place that knows both.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace holdpin {

struct Raster {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> rgba;  // width * height * 4 bytes
};

// Rows of 32-bit pixels whose colours were multiplied by alpha, in the byte order of this machine
// (Cairo's ARGB32), `stride` bytes apart.
Raster from_premultiplied(std::span<const std::uint8_t> pixels, int width, int height,
                          std::size_t stride);

// The other way: rows of width * 4 bytes without gaps.
std::vector<std::uint8_t> to_premultiplied(const Raster& raster);

}  // namespace holdpin
