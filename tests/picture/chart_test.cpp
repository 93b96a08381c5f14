#include "picture/chart.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <set>

using namespace holdpin;

namespace {

constexpr ChartLook kLook{700, 380, 1, false};

// A hall in which an engine runs for two hours, with everything a chart can have.
ChartData full_chart() {
    ChartData chart;
    chart.x = {"from now", "h:min", 0, 480, ChartTicks::clock};
    chart.left = {"Carbon monoxide", "ppm", 0, 250, ChartTicks::decimal};
    chart.right = ChartAxis{"Blood", "%", 0, 20, ChartTicks::decimal};
    ChartLine air{"air of the room", ChartStyle::solid, false, {}};
    ChartLine blood{"blood", ChartStyle::dashed, true, {}};
    for (int minute = 0; minute <= 480; minute += 10) {
        const double x = minute;
        air.points.push_back({x, 220 * (1 - std::exp(-x / 90))});
        blood.points.push_back({x, 18 * (1 - std::exp(-x / 200))});
    }
    chart.lines = {air, blood};
    chart.levels = {{200, "ceiling 200 ppm (NIOSH)", false}};
    chart.bands = {{0, 480, 35, "35 ppm as an average over 8 h (NIOSH)"}};
    chart.marks = {{120, 160, "engine off", false}};
    return chart;
}

bool inside(const Box& box, const ChartLook& look) {
    return box.x >= -0.5 && box.y >= -0.5 && box.x + box.width <= look.width + 0.5 &&
           box.y + box.height <= look.height + 0.5;
}

int grey(const Raster& raster, int x, int y) {
    const auto at = (static_cast<std::size_t>(y) * static_cast<std::size_t>(raster.width) +
                     static_cast<std::size_t>(x)) *
                    4U;
    const double alpha = raster.rgba[at + 3] / 255.0;
    const double colour = 0.2126 * raster.rgba[at] + 0.7152 * raster.rgba[at + 1] +
                          0.0722 * raster.rgba[at + 2];
    return static_cast<int>(colour * alpha + 250 * (1 - alpha));
}

// How often a level line of this style changes between dark and light, and how dark its middle is
// in all: what is left of a style in a grey copy.
std::pair<int, int> in_grey(ChartStyle style) {
    ChartData chart;
    chart.x = {"", "", 0, 10, ChartTicks::decimal};
    chart.left = {"", "", 0, 3, ChartTicks::decimal};
    chart.lines = {{"", style, false, {{0, 1.5}, {10, 1.5}}}};
    const auto drawing = draw_chart(chart, kLook);
    REQUIRE(drawing.ok());
    const Raster& raster = drawing.value().raster;
    int changes = 0;
    int dark = 0;
    // The row of the line: the one with the most ink between the grid lines at 1 and 2.
    int best_row = 0;
    for (int y = 0; y < raster.height; ++y) {
        int count = 0;
        for (int x = 100; x < 600; ++x) count += grey(raster, x, y) < 128 ? 1 : 0;
        // The bottom axis is dark throughout and lies in the lower fifth.
        if (count > dark && y < raster.height * 4 / 5) {
            dark = count;
            best_row = y;
        }
    }
    for (int x = 101; x < 600; ++x) {
        const bool before = grey(raster, x - 1, best_row) < 128;
        changes += before != (grey(raster, x, best_row) < 128) ? 1 : 0;
    }
    return {changes, dark};
}

}  // namespace

TEST_CASE("the numbers of an axis are round: 1, 2 or 5 times a power of ten") {
    const double ranges[][2] = {{0, 1}, {0, 7}, {0, 250}, {-40, 60}, {0, 0.03}, {0, 98765}, {3, 4}};
    for (const auto& range : ranges) {
        for (const int most : {2, 4, 7, 11}) {
            const ChartAxis axis{"", "", range[0], range[1], ChartTicks::decimal};
            const auto ticks = chart_ticks(axis, most);
            CAPTURE(range[1]);
            CHECK(!ticks.empty());
            CHECK(static_cast<int>(ticks.size()) <= most);
            for (const double tick : ticks) {
                CHECK(tick >= range[0] - 1e-9);
                CHECK(tick <= range[1] + 1e-9 * range[1]);
            }
            if (ticks.size() < 2) continue;
            const double step = ticks[1] - ticks[0];
            const double lead = step / std::pow(10, std::floor(std::log10(step) + 1e-9));
            CHECK((std::abs(lead - 1) < 1e-6 || std::abs(lead - 2) < 1e-6 ||
                   std::abs(lead - 5) < 1e-6));
        }
    }
}

TEST_CASE("an axis of minutes is divided as a clock is") {
    const ChartAxis axis{"", "", 0, 480, ChartTicks::clock};
    const auto ticks = chart_ticks(axis, 9);
    REQUIRE(ticks.size() == 9);
    CHECK(chart_tick_text(axis, ticks[1], 60) == "1:00");
    CHECK(chart_tick_text({"", "", 0, 90, ChartTicks::clock}, 15, 15) == "0:15");
}

TEST_CASE("a number is written with as many decimals as its step needs") {
    const ChartAxis axis{"", "", 0, 1, ChartTicks::decimal};
    CHECK(chart_tick_text(axis, 0.2, 0.2) == "0.2");
    CHECK(chart_tick_text(axis, 0.25, 0.05) == "0.25");
    CHECK(chart_tick_text(axis, 1500, 500) == "1\u202F500");
    CHECK(chart_tick_text(axis, -40, 20) == "\u221240");
    CHECK(chart_tick_text(axis, -1e-17, 0.2) == "0.0");
}

TEST_CASE("every word of a chart lies inside it and none lies on another") {
    for (const ChartLook& look : {kLook, ChartLook{420, 300, 1, true}, ChartLook{1100, 500, 1.5}}) {
        const auto drawing = draw_chart(full_chart(), look);
        REQUIRE(drawing.ok());
        const auto& texts = drawing.value().texts;
        CHECK(texts.size() > 12);
        for (std::size_t i = 0; i < texts.size(); ++i) {
            CAPTURE(texts[i].words);
            CHECK(inside(texts[i].box, look));
            for (std::size_t j = i + 1; j < texts.size(); ++j) {
                CAPTURE(texts[j].words);
                CHECK_FALSE(overlap(texts[i].box, texts[j].box));
            }
        }
    }
}

TEST_CASE("limits stand in the chart with their words, units with their axes") {
    const auto drawing = draw_chart(full_chart(), kLook);
    REQUIRE(drawing.ok());
    std::set<std::string> words;
    for (const ChartText& text : drawing.value().texts) words.insert(text.words);
    CHECK(words.count("ceiling 200 ppm (NIOSH)") == 1);
    CHECK(words.count("35 ppm as an average over 8 h (NIOSH)") == 1);
    CHECK(words.count("Carbon monoxide (ppm)") == 1);
    CHECK(words.count("Blood (%)") == 1);
    CHECK(words.count("from now (h:min)") == 1);
}

TEST_CASE("the styles of lines are told apart in a grey copy") {
    std::set<std::pair<int, int>> seen;
    std::vector<int> changes;
    for (int style = 0; style < kChartStyles; ++style) {
        const auto look = in_grey(static_cast<ChartStyle>(style));
        CHECK(look.second > 100);
        changes.push_back(look.first);
    }
    CHECK(changes[0] == 0);
    for (std::size_t i = 0; i < changes.size(); ++i) {
        for (std::size_t j = i + 1; j < changes.size(); ++j) {
            CAPTURE(changes[i]);
            CAPTURE(changes[j]);
            CHECK(std::abs(changes[i] - changes[j]) >= 4);
        }
    }
}

TEST_CASE("by day and by night the same words stand in the same places") {
    const auto day = draw_chart(full_chart(), kLook);
    ChartLook night = kLook;
    night.night = true;
    const auto dark = draw_chart(full_chart(), night);
    REQUIRE(day.ok());
    REQUIRE(dark.ok());
    CHECK(day.value().texts.size() == dark.value().texts.size());
    CHECK(day.value().raster.rgba != dark.value().raster.rgba);
}

TEST_CASE("a chart without points, and one with a single point, are drawn") {
    ChartData chart = full_chart();
    chart.lines[0].points.clear();
    chart.lines[1].points = {{100, 5}};
    chart.marks.clear();
    CHECK(draw_chart(chart, kLook).ok());
    chart.lines.clear();
    chart.levels.clear();
    chart.bands.clear();
    CHECK(draw_chart(chart, kLook).ok());
}

TEST_CASE("a chart with something that is no number is refused") {
    const double nan = std::nan("");
    const double inf = std::numeric_limits<double>::infinity();
    ChartData chart = full_chart();
    chart.lines[0].points[3].y = nan;
    CHECK_FALSE(draw_chart(chart, kLook).ok());
    chart = full_chart();
    chart.levels[0].value = inf;
    CHECK_FALSE(draw_chart(chart, kLook).ok());
    chart = full_chart();
    chart.bands[0].to = nan;
    CHECK_FALSE(draw_chart(chart, kLook).ok());
    chart = full_chart();
    chart.marks[0].x = nan;
    CHECK_FALSE(draw_chart(chart, kLook).ok());
    chart = full_chart();
    chart.x.to = chart.x.from;
    CHECK_FALSE(draw_chart(chart, kLook).ok());
}

TEST_CASE("a size that holds no chart is refused") {
    CHECK_FALSE(draw_chart(full_chart(), {0, 100, 1, false}).ok());
    CHECK_FALSE(draw_chart(full_chart(), {100, 90, 1, false}).ok());
    CHECK_FALSE(draw_chart(full_chart(), {700, 380, 0, false}).ok());
    CHECK_FALSE(draw_chart(full_chart(), {20000, 380, 1, false}).ok());
}
