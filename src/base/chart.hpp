// A chart as plain data: what is drawn on a screen and on paper, already translated and worked out.
// Numbers stand in the unit of their axis. Lines are told apart by dashes before they are by
// colour, so that a copy in grey says the same. Drawn by picture/chart; nothing here draws.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace holdpin {

// How an axis is divided and written.
enum class ChartTicks {
    decimal,  // 1, 2 or 5 times a power of ten
    clock,    // the axis counts minutes; written as hours:minutes
};

struct ChartAxis {
    std::string label;  // "from now"
    std::string unit;   // "h:min"; may be empty
    double from = 0;
    double to = 1;  // above `from`
    ChartTicks ticks = ChartTicks::decimal;
    bool operator==(const ChartAxis&) const = default;
};

struct ChartPoint {
    double x = 0;
    double y = 0;
    bool operator==(const ChartPoint&) const = default;
};

enum class ChartStyle {
    solid,     // thick, in the colour of touch
    dashed,    // long dashes, in ink
    dotted,    // round dots, in ink
    dash_dot,  // in the colour of touch, thinner
};
inline constexpr int kChartStyles = 4;

struct ChartLine {
    std::string name;  // stands in the key above the chart
    ChartStyle style = ChartStyle::solid;
    bool right = false;              // measured on the right axis
    std::vector<ChartPoint> points;  // x never falls; none and one are drawn too
    bool operator==(const ChartLine&) const = default;
};

// A level that counts at every moment.
struct ChartLevel {
    double value = 0;
    std::string words;  // "ceiling 200 ppm (NIOSH)"
    bool right = false;
    bool operator==(const ChartLevel&) const = default;
};

// A level that counts as an average over a stretch: a shaded field from nought to its value.
struct ChartBand {
    double from = 0;
    double to = 0;
    double value = 0;
    std::string words;  // "35 ppm as an average over 8 h (NIOSH)"
    bool operator==(const ChartBand&) const = default;
};

// One spot with a few words: "engine off".
struct ChartMark {
    double x = 0;
    double y = 0;
    std::string words;
    bool right = false;
    bool operator==(const ChartMark&) const = default;
};

struct ChartData {
    ChartAxis x;
    ChartAxis left;
    std::optional<ChartAxis> right;
    std::vector<ChartLine> lines;
    std::vector<ChartLevel> levels;
    std::vector<ChartBand> bands;
    std::vector<ChartMark> marks;
    bool operator==(const ChartData&) const = default;
};

}  // namespace holdpin
