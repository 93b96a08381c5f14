// Illustrations: an SVG text drawn at an exact pixel size, in the day or the night colours, with
// the named parts painted in the accent. Nothing is fetched: the SVG is read from memory and has
// no base address, so a reference to another file stays empty.
// The picture keeps its proportions and is centred in the size asked for; part boxes are in pixels
// of that size. Not here: textures, caching, the dashed frame and the names beside it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "picture/ink_map.hpp"
#include "picture/raster.hpp"

namespace holdpin {

struct PartBox {
    std::string id;
    double x = 0;
    double y = 0;
    double width = 0;
    double height = 0;
};

struct DrawingOrder {
    std::string svg;    // the text of the file
    std::string where;  // its name, for the error
    int width = 0;
    int height = 0;
    std::vector<std::string> parts;  // element ids to paint in the accent
    bool night = false;
};

struct Drawing {
    Raster raster;
    std::vector<PartBox> parts;  // one for each part asked for, in the same order
    InkMap ink;
};

// Errors: invalid (no SVG, no size), absent (a part that the picture does not have).
Result<Drawing> draw_svg(const DrawingOrder& order);

// The smallest box around everything in a picture that is not transparent; of no size when all is.
PartBox ink_box(const Raster& raster);

// The two texts that colour a picture, exposed for their tests. The night is an exchange of the
// house colours in the picture's own text, because only that text knows which of them are outlines
// and which are areas; the accent is a stylesheet laid over it.
std::string in_night_colours(std::string_view svg);
std::string accent_sheet(const std::vector<std::string>& parts, bool night);

}  // namespace holdpin
