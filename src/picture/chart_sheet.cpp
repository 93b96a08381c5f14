#include "picture/chart_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "picture/marks.hpp"

namespace holdpin {

namespace {

constexpr double kKeySample = 52;  // sketch pixels: the piece of line before a name
constexpr double kGap = 10;
constexpr double kBetweenNames = 30;
constexpr double kTickRoom = 100;   // least distance of numbers along the bottom
constexpr double kTickRise = 38;    // and up the side
constexpr int kMostRises = 8;       // more numbers are not read
constexpr double kLeastPlot = 60;

std::string with_unit(const ChartAxis& axis) {
    if (axis.label.empty() || axis.unit.empty()) return axis.label + axis.unit;
    return axis.label + " (" + axis.unit + ")";
}

double step_of(const std::vector<double>& ticks) {
    return ticks.size() < 2 ? 1 : ticks[1] - ticks[0];
}

}  // namespace

Error chart_refusal(const std::string& what, const std::string& where) {
    return Error{ErrorKind::invalid, what, where, "give the chart finite numbers and a size"};
}

double ChartSheet::widest(const ChartAxis& axis, const std::vector<double>& ticks) const {
    double most = 0;
    for (const double tick : ticks) {
        most = std::max(most, pen_.words(chart_tick_text(axis, tick, step_of(ticks))).width);
    }
    return most;
}

// Key and titles above, numbers at the sides and below; the plot has the rest.
Result<void> ChartSheet::lay_out() {
    line_ = pen_.words("Ág").height;
    head();
    plot_.height = look_.height - plot_.y - 2 * line_ - pen_.unit(kGap);
    const int rises = std::min(kMostRises, static_cast<int>(plot_.height / pen_.unit(kTickRise)));
    if (plot_.height < pen_.unit(kLeastPlot)) return chart_refusal("the chart is too low", "");
    left_ticks_ = chart_ticks(chart_.left, rises);
    if (chart_.right) right_ticks_ = chart_ticks(*chart_.right, rises);
    plot_.x = widest(chart_.left, left_ticks_) + pen_.unit(kGap);
    const double right = chart_.right ? widest(*chart_.right, right_ticks_) + pen_.unit(kGap)
                                      : pen_.unit(kTickRoom / 3);
    plot_.width = look_.width - plot_.x - right;
    if (plot_.width < pen_.unit(kLeastPlot)) return chart_refusal("the chart is too narrow", "");
    x_ticks_ = chart_ticks(chart_.x, static_cast<int>(plot_.width / pen_.unit(kTickRoom)));
    return {};
}

double ChartSheet::key_width(const ChartLine& line) const {
    return line.name.empty() ? 0
                             : pen_.unit(kKeySample + kGap + kBetweenNames) +
                                   pen_.words(line.name).width;
}

// Sample and name of each line, in rows from x, y on. Returns the height.
double ChartSheet::key(double from, double y) {
    double x = from;
    const double top = y;
    for (const ChartLine& line : chart_.lines) {
        if (line.name.empty()) continue;
        const double width = key_width(line);
        if (x > from && x + width - pen_.unit(kBetweenNames) > look_.width) {
            x = from;
            y += line_;
        }
        pen_.style(line.style);
        pen_.straight(x + pen_.unit(3), y + line_ / 2, x + pen_.unit(kKeySample), y + line_ / 2);
        pen_.write(pen_.words(line.name), x + pen_.unit(kKeySample + kGap), y, ChartInk::ink);
        x += width;
    }
    return x > from ? y + line_ - top : 0;
}

// Titles of the upright axes and the key, in one row where that is wide enough. Leaves the top of
// what follows in plot_.y.
void ChartSheet::head() {
    const ChartWords left = pen_.words(with_unit(chart_.left));
    const ChartWords right = pen_.words(chart_.right ? with_unit(*chart_.right) : "");
    double names = 0;
    for (const ChartLine& line : chart_.lines) names += key_width(line);
    const double gap = pen_.unit(kBetweenNames);
    const bool one_row = left.width + gap + names + right.width <= look_.width;
    const double below = one_row ? 0 : key(0, 0);
    if (one_row) key(left.width + gap, 0);
    if (!left.words.empty()) pen_.write(left, 0, below, ChartInk::second);
    if (chart_.right) {
        pen_.write(right, look_.width - right.width, below, ChartInk::second);
    }
    plot_.y = below + line_ + pen_.unit(kGap);
}

void ChartSheet::side_numbers(const ChartAxis& axis, const std::vector<double>& ticks, bool right) {
    for (const double tick : ticks) {
        const ChartWords number = pen_.words(chart_tick_text(axis, tick, step_of(ticks)));
        const double x = right ? plot_.x + plot_.width + pen_.unit(kGap)
                               : plot_.x - pen_.unit(kGap) - number.width;
        pen_.write(number, x, up(tick, right) - number.height / 2, ChartInk::second);
    }
}

void ChartSheet::grid() {
    pen_.plain();
    cairo_set_line_width(pen_.cairo(), pen_.unit(1.4));
    for (const double tick : left_ticks_) {
        pen_.colour(ChartInk::line);
        pen_.straight(plot_.x, up(tick, false), plot_.x + plot_.width, up(tick, false));
    }
    const double bottom = plot_.y + plot_.height;
    for (const double tick : x_ticks_) {
        pen_.plain();
        pen_.colour(ChartInk::second);
        pen_.straight(across(tick), bottom, across(tick), bottom + pen_.unit(6));
        const ChartWords number = pen_.words(chart_tick_text(chart_.x, tick, step_of(x_ticks_)));
        const double x = std::min(across(tick) - number.width / 2, look_.width - number.width);
        pen_.write(number, std::max(0.0, x), bottom + pen_.unit(kGap), ChartInk::second);
    }
    cairo_set_line_width(pen_.cairo(), pen_.unit(1.8));
    pen_.colour(ChartInk::second);
    pen_.straight(plot_.x, bottom, plot_.x + plot_.width, bottom);
    pen_.straight(plot_.x, plot_.y, plot_.x, bottom);
    if (chart_.right) {
        pen_.straight(plot_.x + plot_.width, plot_.y, plot_.x + plot_.width, bottom);
    }
    side_numbers(chart_.left, left_ticks_, false);
    if (chart_.right) side_numbers(*chart_.right, right_ticks_, true);
    const ChartWords title = pen_.words(with_unit(chart_.x));
    pen_.write(title, plot_.x + (plot_.width - title.width) / 2, look_.height - title.height,
               ChartInk::second);
}

// Slanting strokes: seen in grey, and nothing that lies on it is hidden.
void ChartSheet::bands() {
    cairo_t* cairo = pen_.cairo();
    for (const ChartBand& band : chart_.bands) {
        const double left = across(band.from);
        const double right = across(band.to);
        const double top = up(band.value, false);
        const double bottom = up(chart_.left.from, false);
        cairo_save(cairo);
        cairo_rectangle(cairo, left, top, right - left, bottom - top);
        cairo_clip(cairo);
        pen_.colour(ChartInk::level, look_.night ? 0.16 : 0.08);
        cairo_paint(cairo);
        pen_.plain();
        pen_.colour(ChartInk::level, look_.night ? 0.5 : 0.35);
        cairo_set_line_width(cairo, pen_.unit(1.2));
        const double slant = bottom - top;
        for (double x = left - slant; x < right; x += pen_.unit(13)) {
            pen_.straight(x, bottom, x + slant, top);
        }
        pen_.colour(ChartInk::level);
        cairo_set_line_width(cairo, pen_.unit(4));
        pen_.straight(left, top, right, top);
        cairo_restore(cairo);
    }
}

void ChartSheet::levels() {
    for (const ChartLevel& level : chart_.levels) {
        if (!in_sight(level.value, level.right)) continue;
        const double y = up(level.value, level.right);
        const double dashes[] = {pen_.unit(10), pen_.unit(5)};
        pen_.plain();
        cairo_set_dash(pen_.cairo(), dashes, 2, 0);
        cairo_set_line_width(pen_.cairo(), pen_.unit(2.6));
        pen_.colour(ChartInk::level);
        pen_.straight(plot_.x, y, plot_.x + plot_.width, y);
    }
}

void ChartSheet::lines() {
    cairo_t* cairo = pen_.cairo();
    for (const ChartLine& line : chart_.lines) {
        pen_.style(line.style);
        if (line.points.size() == 1) {
            const ChartPoint& only = line.points.front();
            cairo_arc(cairo, across(only.x), up(only.y, line.right), pen_.unit(6), 0, 2 * M_PI);
            cairo_fill(cairo);
            continue;
        }
        for (const ChartPoint& point : line.points) {
            cairo_line_to(cairo, across(point.x), up(point.y, line.right));
        }
        cairo_stroke(cairo);
    }
}

void ChartSheet::marks() {
    cairo_t* cairo = pen_.cairo();
    for (const ChartMark& mark : chart_.marks) {
        cairo_arc(cairo, across(mark.x), up(mark.y, mark.right), pen_.unit(8), 0, 2 * M_PI);
        pen_.colour(ChartInk::ground);
        cairo_fill_preserve(cairo);
        pen_.plain();
        pen_.colour(ChartInk::ink);
        cairo_set_line_width(cairo, pen_.unit(3.5));
        cairo_stroke(cairo);
    }
}

// How many pieces of line go through a box.
int ChartSheet::crossings(const Box& box) const {
    int count = 0;
    for (const ChartLine& line : chart_.lines) {
        for (std::size_t i = 1; i < line.points.size(); ++i) {
            const ChartPoint& a = line.points[i - 1];
            const ChartPoint& b = line.points[i];
            for (const double part : {0.0, 0.25, 0.5, 0.75, 1.0}) {
                const double x = across(a.x + (b.x - a.x) * part);
                const double y = up(a.y + (b.y - a.y) * part, line.right);
                count += overlap(box, {x - 2, y - 2, 4, 4}) ? 1 : 0;
            }
        }
    }
    return count;
}

// How much would be hidden by words in a box: other words above all, then spots, levels, lines.
int ChartSheet::cost_of(const Box& box) const {
    int cost = crossings(box);
    for (const Box& other : taken_) cost += overlap(box, other) ? 1000 : 0;
    const double dot = pen_.unit(10);
    for (const ChartMark& mark : chart_.marks) {
        const Box round{across(mark.x) - dot, up(mark.y, mark.right) - dot, 2 * dot, 2 * dot};
        cost += overlap(box, round) ? 200 : 0;
    }
    for (const ChartLevel& level : chart_.levels) {
        const double at = up(level.value, level.right);
        cost += overlap(box, {plot_.x, at - 1, plot_.width, 2}) ? 30 : 0;
    }
    for (const ChartBand& band : chart_.bands) {
        const double at = up(band.value, false);
        cost += overlap(box, {across(band.from), at - 1, across(band.to) - across(band.from), 2})
                    ? 5
                    : 0;
    }
    return cost;
}

// Along the height y, from the right to the left end, above or below; or around the spot x, y.
// Inside the plot, off other words, and where the fewest lines pass.
Box ChartSheet::best_place(const ChartWords& words, double x, double y, Stand stand) const {
    const bool around = stand == Stand::spot;
    const double gap = pen_.unit(around ? 12 : 4);
    const double w = words.width;
    const double h = words.height;
    const double right = around ? x + gap : plot_.x + plot_.width - w - gap;
    const double left = around ? x - gap - w : plot_.x + gap;
    const double middle = around ? x - w / 2 : plot_.x + (plot_.width - w) / 2;
    Box best{right, y - h - gap / 2, w, h};
    int least = std::numeric_limits<int>::max();
    std::vector<double> heights{y - h - gap / 2, y + gap / 2};
    if (around) heights.insert(heights.end(), {y - h / 2, y - 1.8 * h});
    const double edge = pen_.unit(4);  // words that touch an axis hide it
    if (stand == Stand::band) heights.insert(heights.end(), {y - 2.4 * h, y - 3.2 * h, y - 4 * h});
    for (const double at_x : {right, left, middle, (right + middle) / 2, (left + middle) / 2}) {
        for (const double at_y : heights) {
            Box box{at_x, at_y, w, h};
            box.x = std::clamp(box.x, plot_.x + edge,
                               std::max(plot_.x + edge, plot_.x + plot_.width - w));
            box.y = std::clamp(box.y, plot_.y,
                               std::max(plot_.y, plot_.y + plot_.height - h - edge));
            const int cost = cost_of(box);
            if (cost < least) {
                least = cost;
                best = box;
            }
        }
    }
    return best;
}

void ChartSheet::place(const std::string& text, double x, double y, Stand stand) {
    if (text.empty()) return;
    const ChartInk ink = stand == Stand::spot ? ChartInk::ink : ChartInk::level;
    ChartWords words = pen_.words(text, ink == ChartInk::level);
    pen_.wrap(words, plot_.width - pen_.unit(2 * kGap));
    const Box box = best_place(words, x, y, stand);
    taken_.push_back(box);
    const double bottom = box.y + box.height;
    if (stand == Stand::band && y - bottom > box.height / 2) {
        pen_.plain();
        pen_.colour(ink);
        cairo_set_line_width(pen_.cairo(), pen_.unit(1.8));
        const double from = box.x + box.width - pen_.unit(kGap);
        pen_.straight(from, bottom, from, y);
    }
    pen_.write(words, box.x, box.y, ink, true);
}

void ChartSheet::level_words() {
    for (const ChartLevel& level : chart_.levels) {
        if (!in_sight(level.value, level.right)) continue;
        place(level.words, 0, up(level.value, level.right), Stand::level);
    }
}

void ChartSheet::band_words() {
    for (const ChartBand& band : chart_.bands) {
        place(band.words, 0, up(band.value, false), Stand::band);
    }
}

void ChartSheet::mark_words() {
    for (const ChartMark& mark : chart_.marks) {
        place(mark.words, across(mark.x), up(mark.y, mark.right), Stand::spot);
    }
}

Result<std::vector<ChartText>> ChartSheet::draw() {
    TRY(lay_out());
    cairo_t* cairo = pen_.cairo();
    cairo_save(cairo);
    cairo_rectangle(cairo, plot_.x, plot_.y, plot_.width, plot_.height);
    cairo_clip(cairo);
    bands();
    cairo_restore(cairo);
    grid();
    levels();
    cairo_save(cairo);
    const double thick = pen_.unit(4);
    cairo_rectangle(cairo, plot_.x - thick, plot_.y - thick, plot_.width + 2 * thick,
                    plot_.height + 2 * thick);
    cairo_clip(cairo);
    lines();
    cairo_restore(cairo);
    level_words();
    band_words();
    mark_words();
    marks();
    return pen_.take_texts();
}

}  // namespace holdpin
