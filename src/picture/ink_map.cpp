#include "picture/ink_map.hpp"

#include <algorithm>
#include <cmath>

namespace holdpin {
namespace {

constexpr int kSquare = 8;  // pixels

double overlap(double from, double length, int square) {
    const double begin = static_cast<double>(square) * kSquare;
    return std::max(0.0, std::min(from + length, begin + kSquare) - std::max(from, begin));
}

}  // namespace

InkMap::InkMap(const Raster& raster)
    : columns_((raster.width + kSquare - 1) / kSquare),
      rows_((raster.height + kSquare - 1) / kSquare),
      ink_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_)) {
    std::size_t alpha = 3;
    for (int y = 0; y < raster.height; ++y) {
        for (int x = 0; x < raster.width; ++x, alpha += 4) {
            if (raster.rgba[alpha] == 0) continue;
            const int square = (y / kSquare) * columns_ + x / kSquare;
            ink_[static_cast<std::size_t>(square)] = true;
        }
    }
}

bool InkMap::at(int column, int row) const {
    const bool is_inside = column >= 0 && row >= 0 && column < columns_ && row < rows_;
    return is_inside && ink_[static_cast<std::size_t>(row * columns_ + column)];
}

double InkMap::under(double x, double y, double width, double height) const {
    const auto square_of = [](double at) { return static_cast<int>(std::floor(at / kSquare)); };
    double inked = 0;
    for (int row = square_of(y); row <= square_of(y + height); ++row) {
        for (int column = square_of(x); column <= square_of(x + width); ++column) {
            if (at(column, row)) inked += overlap(x, width, column) * overlap(y, height, row);
        }
    }
    return width > 0 && height > 0 ? inked / (width * height) : 0;
}

}  // namespace holdpin
