// Where a picture is drawn on and where it is empty, in squares of 8 pixels: enough to find a place
// for a name that hides nothing.
#pragma once

#include <vector>

#include "picture/raster.hpp"

namespace holdpin {

class InkMap {
  public:
    InkMap() = default;
    explicit InkMap(const Raster& raster);
    // How much of a rectangle lies on squares with ink, 0 to 1. Beside the picture there is none.
    double under(double x, double y, double width, double height) const;

  private:
    bool at(int column, int row) const;
    int columns_ = 0;
    int rows_ = 0;
    std::vector<bool> ink_;
};

}  // namespace holdpin
