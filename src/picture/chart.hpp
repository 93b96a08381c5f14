// Charts, drawn with Cairo and Pango: the same code for a screen (a Raster with straight alpha) and
// for a page (any Cairo context). Axes with label, unit and round ticks, lines told apart by
// dashes, levels with words, readable in grey, by day and by night. The ground is left
// transparent; what lies behind is the plate of the theme or white paper. Every text that was
// written is given back with its place, so that a test can see that nothing leaves the chart.
// Numbers that are not finite are refused. It works nothing out.
#pragma once

#include <string>
#include <vector>

#include "base/chart.hpp"
#include "base/result.hpp"
#include "picture/marks.hpp"
#include "picture/raster.hpp"

typedef struct _cairo cairo_t;

namespace holdpin {

struct ChartLook {
    double width = 0;   // pixels, or points on paper
    double height = 0;
    double unit = 1;    // size of a sketch pixel: 1 at 5.9 px to the millimetre, 0.48 in points
    bool night = false;
};

struct ChartText {
    std::string words;
    Box box;  // of its ink, turned texts too
};

struct ChartDrawing {
    Raster raster;
    std::vector<ChartText> texts;
};

// Errors: invalid (a number that is not finite, an axis without length, a size that holds no
// chart).
Result<ChartDrawing> draw_chart(const ChartData& chart, const ChartLook& look);
// The same at the origin of a context; its state is as before when it returns.
Result<std::vector<ChartText>> draw_chart_on(cairo_t* cairo, const ChartData& chart,
                                             const ChartLook& look);

// The round numbers of an axis, at most `most` of them, all inside it.
std::vector<double> chart_ticks(const ChartAxis& axis, int most);
// As one of them is written: "1 500", "0.25", "1:30".
std::string chart_tick_text(const ChartAxis& axis, double tick, double step);

}  // namespace holdpin
