#include "picture/drawing.hpp"

#include <cairo.h>
#include <librsvg/rsvg.h>

#include <algorithm>
#include <memory>
#include <span>

#include "picture/cairo_handles.hpp"

namespace holdpin {

namespace {

struct Unref {
    void operator()(RsvgHandle* handle) const { g_object_unref(handle); }
};
struct Free {
    void operator()(GError* error) const { g_error_free(error); }
};

using Handle = std::unique_ptr<RsvgHandle, Unref>;
using Fault = std::unique_ptr<GError, Free>;

const guint8* as_bytes(const std::string& text) {
    return static_cast<const guint8*>(static_cast<const void*>(text.data()));
}

Error fault(const GError* error, const std::string& where) {
    const std::string reason = error != nullptr ? error->message : "unknown";
    return Error{ErrorKind::invalid, "the picture cannot be drawn: " + reason, where,
                 "open the file in a drawing program and save it as plain SVG"};
}

Result<Handle> parsed(const DrawingOrder& order) {
    const std::string svg = order.night ? in_night_colours(order.svg) : order.svg;
    GError* error = nullptr;
    Handle handle(rsvg_handle_new_from_data(as_bytes(svg), svg.size(), &error));
    if (!handle) {
        const Fault held(error);
        return fault(error, order.where);
    }
    const std::string sheet = accent_sheet(order.parts, order.night);
    if (rsvg_handle_set_stylesheet(handle.get(), as_bytes(sheet), sheet.size(), &error) == FALSE) {
        const Fault held(error);
        return fault(error, order.where);
    }
    return handle;
}

// A transparent picture of the size ordered, and what draws on it.
struct Canvas {
    CairoSurface surface;
    CairoPen cairo;
};

Canvas canvas_of(const DrawingOrder& order) {
    Canvas canvas;
    canvas.surface.reset(
        cairo_image_surface_create(CAIRO_FORMAT_ARGB32, order.width, order.height));
    canvas.cairo.reset(cairo_create(canvas.surface.get()));
    return canvas;
}

Raster raster_of(const Canvas& canvas, const DrawingOrder& order) {
    cairo_surface_flush(canvas.surface.get());
    const auto stride =
        static_cast<std::size_t>(cairo_image_surface_get_stride(canvas.surface.get()));
    const std::span<const std::uint8_t> pixels(cairo_image_surface_get_data(canvas.surface.get()),
                                               stride * static_cast<std::size_t>(order.height));
    return from_premultiplied(pixels, order.width, order.height, stride);
}

// The part is drawn alone and its ink looked up: the geometry that librsvg 2.54 states is wrong for
// a group with a straight stroke in it (it reaches to the origin).
Result<PartBox> box_of(RsvgHandle* handle, const DrawingOrder& order, const RsvgRectangle& viewport,
                       const std::string& part) {
    const std::string fragment = "#" + part;
    if (rsvg_handle_has_sub(handle, fragment.c_str()) == FALSE) {
        return Error{ErrorKind::absent, "the picture has no part \"" + part + "\"", order.where,
                     "give an element of the drawing this id, or name another part"};
    }
    const Canvas canvas = canvas_of(order);
    GError* error = nullptr;
    if (rsvg_handle_render_layer(handle, canvas.cairo.get(), fragment.c_str(), &viewport, &error) ==
        FALSE) {
        const Fault held(error);
        return fault(error, order.where);
    }
    PartBox box = ink_box(raster_of(canvas, order));
    box.id = part;
    return box;
}

Result<Raster> rendered(RsvgHandle* handle, const DrawingOrder& order,
                        const RsvgRectangle& viewport) {
    const Canvas canvas = canvas_of(order);
    GError* error = nullptr;
    if (rsvg_handle_render_document(handle, canvas.cairo.get(), &viewport, &error) == FALSE) {
        const Fault held(error);
        return fault(error, order.where);
    }
    return raster_of(canvas, order);
}

}  // namespace

PartBox ink_box(const Raster& raster) {
    int left = raster.width;
    int right = -1;
    int top = raster.height;
    int bottom = -1;
    std::size_t alpha = 3;
    for (int y = 0; y < raster.height; ++y) {
        for (int x = 0; x < raster.width; ++x, alpha += 4) {
            if (raster.rgba[alpha] != 0) {
                left = std::min(left, x);
                right = std::max(right, x);
                top = std::min(top, y);
                bottom = y;
            }
        }
    }
    if (right < 0) {
        return {};
    }
    return {{},
            static_cast<double>(left),
            static_cast<double>(top),
            static_cast<double>(right + 1 - left),
            static_cast<double>(bottom + 1 - top)};
}

Result<Drawing> draw_svg(const DrawingOrder& order) {
    constexpr int kMostPixels = 8192;  // beyond any screen; keeps a slip from asking for gigabytes
    if (order.width < 1 || order.height < 1 || order.width > kMostPixels ||
        order.height > kMostPixels) {
        return Error{ErrorKind::invalid, "a picture needs a width and a height of 1 to 8192 pixels",
                     order.where, "ask for another size"};
    }
    const Handle handle = TRY(parsed(order));
    const RsvgRectangle viewport{0, 0, static_cast<double>(order.width),
                                 static_cast<double>(order.height)};
    Drawing drawing;
    for (const auto& part : order.parts) {
        drawing.parts.push_back(TRY(box_of(handle.get(), order, viewport, part)));
    }
    drawing.raster = TRY(rendered(handle.get(), order, viewport));
    drawing.ink = InkMap(drawing.raster);
    return drawing;
}

}  // namespace holdpin
