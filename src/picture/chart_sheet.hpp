// One chart on one context: where everything stands, and the drawing of it in order. Its numbers
// were checked before. Only for the files of the chart.
#pragma once

#include <string>
#include <vector>

#include "picture/chart_pen.hpp"

namespace holdpin {

Error chart_refusal(const std::string& what, const std::string& where);

class ChartSheet {
  public:
    ChartSheet(cairo_t* cairo, const ChartData& chart, const ChartLook& look)
        : pen_(cairo, look), chart_(chart), look_(look) {}
    Result<std::vector<ChartText>> draw();

  private:
    Result<void> lay_out();
    void head();
    double key(double from, double y);
    double key_width(const ChartLine& line) const;
    void grid();
    void side_numbers(const ChartAxis& axis, const std::vector<double>& ticks, bool right);
    void bands();
    void levels();
    void lines();
    void marks();
    void band_words();
    void level_words();
    void mark_words();
    // Where words may stand: along a level, along a band or with a leader over it, around a spot.
    enum class Stand { level, band, spot };
    void place(const std::string& words, double x, double y, Stand stand);
    Box best_place(const ChartWords& words, double x, double y, Stand stand) const;
    int crossings(const Box& box) const;
    int cost_of(const Box& box) const;
    double widest(const ChartAxis& axis, const std::vector<double>& ticks) const;

    const ChartAxis& side(bool right) const {
        return right && chart_.right ? *chart_.right : chart_.left;
    }
    double across(double x) const {
        return plot_.x + plot_.width * (x - chart_.x.from) / (chart_.x.to - chart_.x.from);
    }
    double up(double y, bool right) const {
        const ChartAxis& axis = side(right);
        return plot_.y + plot_.height * (1 - (y - axis.from) / (axis.to - axis.from));
    }
    bool in_sight(double value, bool right) const {
        return value >= side(right).from && value <= side(right).to;
    }

    ChartPen pen_;
    const ChartData& chart_;
    const ChartLook& look_;
    Box plot_;
    double line_ = 0;  // height of a line of words
    std::vector<double> x_ticks_;
    std::vector<double> left_ticks_;
    std::vector<double> right_ticks_;
    std::vector<Box> taken_;  // words inside the plot
};

}  // namespace holdpin
