// Cairo's pictures and pens are given back when they go out of scope.
#pragma once

#include <cairo.h>

#include <memory>

namespace holdpin {

struct CairoDestroy {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
    void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
using CairoSurface = std::unique_ptr<cairo_surface_t, CairoDestroy>;
using CairoPen = std::unique_ptr<cairo_t, CairoDestroy>;

}  // namespace holdpin
