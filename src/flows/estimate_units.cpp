#include "flows/estimate_units.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/text.hpp"

namespace holdpin {
namespace {

struct Shown {
    const char* metric;
    const char* us;
    double factor;      // metric = shown · factor + offset, in US units
    double offset = 0;
    double metric_factor = 1;  // the same for the metric unit shown: kPa of a bar
};

// In the order of Quantity.
constexpr std::array<Shown, 16> kShown{{
    {"m³", "ft³", 0.028316846592},
    {"m³/h", "ft³/min", 1.69901079552},
    {"L/min", "L/min", 1},
    {"ppm", "ppm", 1},
    {"%", "%", 1},
    {"min", "min", 1},
    {"°C", "°F", 5.0 / 9.0, -160.0 / 9.0},
    {"bar", "psi", 6.894757293168, 0, 100},
    {"kg", "lb", 0.45359237},
    {"m", "ft", 0.3048},
    {"°", "°", 1},
    {"N", "lbf", 4.4482216152605},
    {"m²", "ft²", 0.09290304},
    {"km/h", "mph", 1.609344},
    {"L", "gal", 3.785411784},
    {"L/min", "gal/min", 3.785411784},
}};

const Shown& row_of(Quantity quantity) { return kShown[static_cast<std::size_t>(quantity)]; }

std::string duration(double minutes) {
    const auto whole = std::lround(minutes);
    if (whole < 60) return fmt::format("{}\u00a0min", whole);
    if (whole % 60 == 0) return fmt::format("{}\u00a0h", whole / 60);
    return fmt::format("{}\u00a0h\u00a0{}\u00a0min", whole / 60, whole % 60);
}

}  // namespace

double Units::shown(Quantity quantity, double metric) const {
    const Shown& row = row_of(quantity);
    return us_ ? (metric - row.offset) / row.factor : metric / row.metric_factor;
}

double Units::metric(Quantity quantity, double shown) const {
    const Shown& row = row_of(quantity);
    return us_ ? shown * row.factor + row.offset : shown * row.metric_factor;
}

std::string Units::unit(Quantity quantity) const {
    return us_ ? row_of(quantity).us : row_of(quantity).metric;
}

std::string Units::text(Quantity quantity, double metric) const {
    return text_of_shown(quantity, shown(quantity, metric));
}

std::string Units::text_of_shown(Quantity quantity, double shown) const {
    if (quantity == Quantity::minutes) return duration(shown);
    const char* space = quantity == Quantity::angle ? "" : "\u00a0";
    return plain_number(shown) + space + unit(quantity);
}

std::string plain_number(double value) {
    const double size = std::abs(value);
    const int decimals = size >= 100 ? 0 : size >= 10 ? 1 : 2;
    std::string text = fmt::format("{:.{}f}", size, decimals);
    if (decimals > 0) {
        while (text.back() == '0') text.pop_back();
        if (text.back() == '.') text.pop_back();
    }
    return (value < 0 && text != "0" ? "\u2212" : "") + with_thousands(text);
}

}  // namespace holdpin
