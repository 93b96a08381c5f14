// Round numbers for an axis, and how they are written.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"
#include "picture/chart.hpp"

namespace holdpin {

namespace {

constexpr double kRounding = 1e-9;  // of a step: an end that is a round number is a tick too
constexpr std::array kClockSteps = {1.0,  2.0,   5.0,   10.0,  15.0,  30.0,  60.0,
                                    120.0, 240.0, 480.0, 720.0, 1440.0, 2880.0};

double first_index(const ChartAxis& axis, double step) {
    return std::ceil(axis.from / step - kRounding);
}

double last_index(const ChartAxis& axis, double step) {
    return std::floor(axis.to / step + kRounding);
}

bool fits(const ChartAxis& axis, double step, int most) {
    return last_index(axis, step) - first_index(axis, step) + 1 <= most;
}

double decimal_step(const ChartAxis& axis, int most) {
    double power = std::pow(10, std::floor(std::log10((axis.to - axis.from) / most)));
    for (;; power *= 10) {
        for (const double factor : {1.0, 2.0, 5.0}) {
            if (fits(axis, factor * power, most)) {
                return factor * power;
            }
        }
    }
}

double clock_step(const ChartAxis& axis, int most) {
    for (const double step : kClockSteps) {
        if (fits(axis, step, most)) {
            return step;
        }
    }
    return decimal_step(axis, most);
}

std::string clock_text(double minutes) {
    const auto whole = std::lround(minutes);
    return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

}  // namespace

std::vector<double> chart_ticks(const ChartAxis& axis, int most) {
    const int at_least_two = most < 2 ? 2 : most;
    const double step = axis.ticks == ChartTicks::clock ? clock_step(axis, at_least_two)
                                                        : decimal_step(axis, at_least_two);
    std::vector<double> ticks;
    for (double index = first_index(axis, step); index <= last_index(axis, step); ++index) {
        ticks.push_back(index * step);
    }
    return ticks;
}

std::string chart_tick_text(const ChartAxis& axis, double tick, double step) {
    if (axis.ticks == ChartTicks::clock) {
        return clock_text(tick);
    }
    const int decimals = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - kRounding)));
    const std::string number = with_thousands(fmt::format("{:.{}f}", std::abs(tick), decimals));
    const bool below = tick < -step / 2;
    return below ? "\u2212" + number : number;
}

}  // namespace holdpin
