#include "picture/png.hpp"

#include <cairo.h>

#include <memory>

namespace holdpin {

namespace {

struct DestroySurface {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};

}  // namespace

Result<void> write_png(const std::string& path, const Raster& raster) {
    const bool has_size = raster.width > 0 && raster.height > 0;
    if (!has_size || raster.rgba.size() != static_cast<std::size_t>(raster.width) *
                                               static_cast<std::size_t>(raster.height) * 4U) {
        return Error{ErrorKind::invalid, "the picture's bytes do not fit its size", path,
                     "give width * height * 4 bytes"};
    }
    auto pixels = to_premultiplied(raster);
    const std::unique_ptr<cairo_surface_t, DestroySurface> surface(
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

}  // namespace holdpin
