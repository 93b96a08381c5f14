#include "picture/raster.hpp"

#include <cstring>

namespace holdpin {

namespace {

constexpr std::size_t kPixelBytes = 4;

// Undoes colour * alpha / 255, rounded; a colour above its alpha cannot be, and is held at 255.
std::uint8_t divided(std::uint32_t colour, std::uint32_t alpha) {
    const std::uint32_t straight = (colour * 255U + alpha / 2U) / alpha;
    return static_cast<std::uint8_t>(straight > 255U ? 255U : straight);
}

std::uint32_t multiplied(std::uint8_t colour, std::uint32_t alpha) {
    return (colour * alpha + 127U) / 255U;
}

}  // namespace

Raster from_premultiplied(std::span<const std::uint8_t> pixels, int width, int height,
                          std::size_t stride) {
    const auto columns = static_cast<std::size_t>(width);
    const auto rows = static_cast<std::size_t>(height);
    Raster raster{width, height, std::vector<std::uint8_t>(columns * rows * kPixelBytes, 0)};
    std::size_t out = 0;
    for (std::size_t row = 0; row < rows; ++row) {
        for (std::size_t column = 0; column < columns; ++column, out += kPixelBytes) {
            std::uint32_t argb = 0;
            std::memcpy(&argb, &pixels[row * stride + column * kPixelBytes], kPixelBytes);
            const std::uint32_t alpha = argb >> 24U;
            if (alpha == 0) {
                continue;
            }
            raster.rgba[out] = divided((argb >> 16U) & 0xFFU, alpha);
            raster.rgba[out + 1] = divided((argb >> 8U) & 0xFFU, alpha);
            raster.rgba[out + 2] = divided(argb & 0xFFU, alpha);
            raster.rgba[out + 3] = static_cast<std::uint8_t>(alpha);
        }
    }
    return raster;
}

std::vector<std::uint8_t> to_premultiplied(const Raster& raster) {
    std::vector<std::uint8_t> pixels(raster.rgba.size(), 0);
    for (std::size_t at = 0; at + kPixelBytes <= pixels.size(); at += kPixelBytes) {
        const std::uint32_t alpha = raster.rgba[at + 3];
        const std::uint32_t argb = (alpha << 24U) | (multiplied(raster.rgba[at], alpha) << 16U) |
                                   (multiplied(raster.rgba[at + 1], alpha) << 8U) |
                                   multiplied(raster.rgba[at + 2], alpha);
        std::memcpy(&pixels[at], &argb, kPixelBytes);
    }
    return pixels;
}

}  // namespace holdpin
