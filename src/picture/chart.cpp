#include "picture/chart.hpp"

#include <algorithm>
#include <cmath>

#include "picture/cairo_handles.hpp"
#include "picture/chart_sheet.hpp"

namespace holdpin {

namespace {

Result<void> checked(const ChartAxis& axis) {
    if (std::isfinite(axis.from) && std::isfinite(axis.to) && axis.to > axis.from) return {};
    return chart_refusal("an axis needs a beginning below its end", axis.label);
}

Result<void> checked(const ChartData& chart) {
    TRY(checked(chart.x));
    TRY(checked(chart.left));
    if (chart.right) TRY(checked(*chart.right));
    const auto finite = [](std::initializer_list<double> numbers) {
        return std::all_of(numbers.begin(), numbers.end(),
                           [](double number) { return std::isfinite(number); });
    };
    for (const ChartLine& line : chart.lines) {
        for (const ChartPoint& point : line.points) {
            if (finite({point.x, point.y})) continue;
            return chart_refusal("a point is no number", line.name);
        }
    }
    for (const ChartLevel& level : chart.levels) {
        if (!finite({level.value})) return chart_refusal("a level is no number", level.words);
    }
    for (const ChartBand& band : chart.bands) {
        if (!finite({band.from, band.to, band.value})) {
            return chart_refusal("a band is no number", band.words);
        }
    }
    for (const ChartMark& mark : chart.marks) {
        if (!finite({mark.x, mark.y})) return chart_refusal("a mark is no number", mark.words);
    }
    return {};
}

Result<void> checked(const ChartLook& look) {
    constexpr double kMostPixels = 8192;
    const bool fine = look.width >= 1 && look.height >= 1 && look.width <= kMostPixels &&
                      look.height <= kMostPixels && look.unit > 0 && std::isfinite(look.unit);
    if (fine) return {};
    return chart_refusal("a chart needs a width and a height of 1 to 8192", "");
}

}  // namespace

Result<std::vector<ChartText>> draw_chart_on(cairo_t* cairo, const ChartData& chart,
                                             const ChartLook& look) {
    TRY(checked(look));
    TRY(checked(chart));
    cairo_save(cairo);
    cairo_new_path(cairo);
    auto texts = ChartSheet(cairo, chart, look).draw();
    cairo_restore(cairo);
    return texts;
}

Result<ChartDrawing> draw_chart(const ChartData& chart, const ChartLook& look) {
    TRY(checked(look));
    const int width = static_cast<int>(look.width);
    const int height = static_cast<int>(look.height);
    const CairoSurface surface(
        cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height));
    const CairoPen cairo(cairo_create(surface.get()));
    ChartDrawing drawing;
    drawing.texts = TRY(draw_chart_on(cairo.get(), chart, look));
    cairo_surface_flush(surface.get());
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
    const std::span<const std::uint8_t> pixels(cairo_image_surface_get_data(surface.get()),
                                               stride * static_cast<std::size_t>(height));
    drawing.raster = from_premultiplied(pixels, width, height, stride);
    return drawing;
}

}  // namespace holdpin
