#include "picture/chart_pen.hpp"

#include <array>
#include <cstdint>

namespace holdpin {

namespace {

constexpr double kLetters = 21;  // sketch pixels, of the em
constexpr double kClear = 7;     // kept free around letters that lie on lines

struct Pair {
    std::uint32_t day;
    std::uint32_t night;
};

// The house colours, as the screens have them.
Pair pair_of(ChartInk ink) {
    switch (ink) {
        case ChartInk::ink: return {0x15191D, 0xEDEFF1};
        case ChartInk::second: return {0x3C434A, 0xBAC2C8};
        case ChartInk::touch: return {0x1F4E6B, 0xA9C8DC};
        case ChartInk::level: return {0x8E1E1E, 0xFF9A91};
        case ChartInk::line: return {0xB9B6AB, 0x3C444B};
        case ChartInk::ground: return {0xFBFAF6, 0x1D2328};
    }
    return {0, 0xFFFFFF};
}

struct Stroke {
    ChartInk ink;
    double width;                 // sketch pixels
    std::array<double, 4> dashes;  // on, off, on, off; all nought: none
    bool round;
};

// In the order of ChartStyle. Widths differ too, so that short pieces are told apart.
constexpr std::array<Stroke, kChartStyles> kStrokes{{
    {ChartInk::touch, 5, {0, 0, 0, 0}, true},
    {ChartInk::ink, 3.5, {17, 9, 17, 9}, false},
    {ChartInk::ink, 5.5, {0.1, 11, 0.1, 11}, true},
    {ChartInk::touch, 3, {20, 7, 4, 7}, false},
}};

void measure(ChartWords& words) {
    PangoRectangle logical;
    pango_layout_get_extents(words.layout.get(), nullptr, &logical);
    words.width = static_cast<double>(logical.width) / PANGO_SCALE;
    words.height = static_cast<double>(logical.height) / PANGO_SCALE;
}

}  // namespace

void ChartPen::colour(ChartInk ink, double opacity) const {
    const Pair pair = pair_of(ink);
    const std::uint32_t rgb = look_.night ? pair.night : pair.day;
    const auto part = [rgb](unsigned shift) { return ((rgb >> shift) & 0xFFU) / 255.0; };
    cairo_set_source_rgba(cairo_, part(16), part(8), part(0), opacity);
}

ChartWords ChartPen::words(const std::string& text, bool bold) const {
    ChartWords made;
    made.words = text;
    made.layout.reset(pango_cairo_create_layout(cairo_));
    PangoFontDescription* font = pango_font_description_from_string("B612, Noto Sans");
    pango_font_description_set_absolute_size(font, unit(kLetters) * PANGO_SCALE);
    pango_font_description_set_weight(font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(made.layout.get(), font);
    pango_font_description_free(font);
    pango_layout_set_text(made.layout.get(), text.data(), static_cast<int>(text.size()));
    measure(made);
    return made;
}

void ChartPen::wrap(ChartWords& words, double width) const {
    if (words.width <= width) {
        return;
    }
    pango_layout_set_width(words.layout.get(), static_cast<int>(width * PANGO_SCALE));
    measure(words);
}

void ChartPen::write(const ChartWords& words, double x, double y, ChartInk ink, bool clear) {
    cairo_new_path(cairo_);
    cairo_move_to(cairo_, x, y);
    if (clear) {
        pango_cairo_layout_path(cairo_, words.layout.get());
        colour(ChartInk::ground);
        plain();
        cairo_set_line_width(cairo_, unit(kClear));
        cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_ROUND);
        cairo_stroke(cairo_);
        cairo_move_to(cairo_, x, y);
    }
    colour(ink);
    pango_cairo_show_layout(cairo_, words.layout.get());
    cairo_new_path(cairo_);
    PangoRectangle drawn;
    pango_layout_get_extents(words.layout.get(), &drawn, nullptr);
    const auto length = [](int pango) { return static_cast<double>(pango) / PANGO_SCALE; };
    texts_.push_back({words.words,
                      {x + length(drawn.x), y + length(drawn.y), length(drawn.width),
                       length(drawn.height)}});
}

void ChartPen::straight(double x1, double y1, double x2, double y2) const {
    cairo_move_to(cairo_, x1, y1);
    cairo_line_to(cairo_, x2, y2);
    cairo_stroke(cairo_);
}

void ChartPen::plain() const {
    cairo_set_dash(cairo_, nullptr, 0, 0);
    cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_BUTT);
}

void ChartPen::style(ChartStyle style) const {
    const Stroke& stroke = kStrokes[static_cast<std::size_t>(style)];
    plain();
    colour(stroke.ink);
    cairo_set_line_width(cairo_, unit(stroke.width));
    cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_ROUND);
    if (stroke.round) {
        cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_ROUND);
    }
    if (stroke.dashes[0] > 0) {
        std::array<double, 4> dashes{};
        for (std::size_t i = 0; i < dashes.size(); ++i) {
            dashes[i] = unit(stroke.dashes[i]);
        }
        cairo_set_dash(cairo_, dashes.data(), static_cast<int>(dashes.size()), 0);
    }
}

}  // namespace holdpin
