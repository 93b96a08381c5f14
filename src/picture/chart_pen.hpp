// What a chart is drawn with: the colours of its theme, strokes of each style, and words in B612
// with their size known beforehand. Only for the files of the chart.
#pragma once

#include <cairo.h>
#include <pango/pangocairo.h>

#include <memory>
#include <string>
#include <vector>

#include "picture/chart.hpp"

namespace holdpin {

enum class ChartInk { ink, second, touch, level, line, ground };

struct ChartUnref {
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};

// Words that are laid out and not yet written.
struct ChartWords {
    std::unique_ptr<PangoLayout, ChartUnref> layout;
    std::string words;
    double width = 0;
    double height = 0;
};

class ChartPen {
  public:
    ChartPen(cairo_t* cairo, const ChartLook& look) : cairo_(cairo), look_(look) {}

    double unit(double sketch_pixels) const { return sketch_pixels * look_.unit; }
    cairo_t* cairo() const { return cairo_; }
    void colour(ChartInk ink, double opacity = 1) const;

    ChartWords words(const std::string& text, bool bold = false) const;
    void wrap(ChartWords& words, double width) const;  // into lines, where they are longer
    // With the top left corner at x, y. `clear`: lines behind are kept off the letters.
    void write(const ChartWords& words, double x, double y, ChartInk ink, bool clear = false);

    void straight(double x1, double y1, double x2, double y2) const;
    // Sets colour, width and dashes of a style; the path is stroked by the caller.
    void style(ChartStyle style) const;
    void plain() const;  // no dashes, flat ends

    std::vector<ChartText> take_texts() { return std::move(texts_); }
    const std::vector<ChartText>& texts() const { return texts_; }

  private:
    cairo_t* cairo_;
    ChartLook look_;
    std::vector<ChartText> texts_;
};

}  // namespace holdpin
