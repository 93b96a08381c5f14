#include "picture/png.hpp"

#include <cairo.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <memory>
#include <span>

#include "picture/cairo_handles.hpp"

namespace holdpin {

namespace {

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};

constexpr std::array<std::uint8_t, 8> kSignature{0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
constexpr std::size_t kWidthAt = 16;   // after signature, length and name of the first chunk
constexpr std::size_t kHeightAt = 20;
constexpr std::size_t kHead = 24;

std::uint32_t big_endian(std::span<const std::uint8_t> bytes) {
    return (std::uint32_t{bytes[0]} << 24U) | (std::uint32_t{bytes[1]} << 16U) |
           (std::uint32_t{bytes[2]} << 8U) | std::uint32_t{bytes[3]};
}

Error no_png(const std::string& path, const char* what) {
    return {ErrorKind::invalid, what, path, "save it again as a PNG of at most 4096 x 4096"};
}

}  // namespace

Result<void> write_png(const std::string& path, const Raster& raster) {
    const bool has_size = raster.width > 0 && raster.height > 0;
    if (!has_size || raster.rgba.size() != static_cast<std::size_t>(raster.width) *
                                               static_cast<std::size_t>(raster.height) * 4U) {
        return Error{ErrorKind::invalid, "the picture's bytes do not fit its size", path,
                     "give width * height * 4 bytes"};
    }
    auto pixels = to_premultiplied(raster);
    const CairoSurface surface(
        cairo_image_surface_create_for_data(pixels.data(), CAIRO_FORMAT_ARGB32, raster.width,
                                            raster.height, raster.width * 4));
    const auto status = cairo_surface_write_to_png(surface.get(), path.c_str());
    if (status != CAIRO_STATUS_SUCCESS) {
        return Error{ErrorKind::failed,
                     std::string("the PNG file was not written: ") + cairo_status_to_string(status),
                     path, "look at the folder, its rights and the room left on the disk"};
    }
    return {};
}

Result<PngSize> png_size(const std::string& path) {
    const std::unique_ptr<std::FILE, CloseFile> file(std::fopen(path.c_str(), "rb"));
    if (!file) return Error{ErrorKind::absent, "the picture cannot be opened", path, ""};
    std::array<std::uint8_t, kHead> head{};
    if (std::fread(head.data(), 1, head.size(), file.get()) != head.size() ||
        !std::equal(kSignature.begin(), kSignature.end(), head.begin())) {
        return no_png(path, "this is no PNG");
    }
    const std::span<const std::uint8_t> bytes(head);
    const std::uint32_t width = big_endian(bytes.subspan(kWidthAt, 4));
    const std::uint32_t height = big_endian(bytes.subspan(kHeightAt, 4));
    constexpr std::uint32_t kMost = kMostPngSide;
    if (width == 0 || height == 0 || width > kMost || height > kMost) {
        return no_png(path, "the picture has no size that can be shown");
    }
    return PngSize{static_cast<int>(width), static_cast<int>(height)};
}

Result<Raster> read_png(const std::string& path) {
    const PngSize size = TRY(png_size(path));
    const CairoSurface read(
        cairo_image_surface_create_from_png(path.c_str()));
    // Whatever it is kept in, it is handed on as 32 bits a pixel.
    const CairoSurface surface(
        cairo_image_surface_create(CAIRO_FORMAT_ARGB32, size.width, size.height));
    if (cairo_surface_status(read.get()) != CAIRO_STATUS_SUCCESS ||
        cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) {
        return no_png(path, "the picture cannot be unpacked");
    }
    cairo_t* cairo = cairo_create(surface.get());
    cairo_set_source_surface(cairo, read.get(), 0, 0);
    cairo_paint(cairo);
    cairo_destroy(cairo);
    cairo_surface_flush(surface.get());
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
    return from_premultiplied({cairo_image_surface_get_data(surface.get()),
                               stride * static_cast<std::size_t>(size.height)},
                              size.width, size.height, stride);
}

}  // namespace holdpin
