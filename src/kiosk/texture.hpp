// Pictures on the screen. The kit asks a TextureSource for a drawing or a chart at a size; the
// window answers with textures painted by picture/, a test answers with nothing and the rest is
// laid out the same.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "flows/page.hpp"
#include "picture/chart.hpp"
#include "picture/drawing.hpp"

namespace holdpin {

// `file` is below assets/illustrations/, without ".svg": "scrubber-left", "tiles/straps-loose".
struct PictureAsk {
    std::string file;
    int width = 0;
    int height = 0;
    bool night = false;
    std::vector<PartMark> parts;
};

struct ChartAsk {
    ChartData chart;
    int width = 0;
    int height = 0;
    float unit = 1;  // of a sketch pixel
    bool night = false;
    bool operator==(const ChartAsk&) const = default;
};

struct Texture {
    std::uintptr_t id = 0;  // 0: nothing to show
    int width = 0;
    int height = 0;
    std::vector<PartBox> parts = {};  // in pixels of the texture, in the order asked for
    InkMap ink = {};                  // of a picture
};

class TextureSource {
  public:
    virtual ~TextureSource() = default;
    virtual Texture picture(const PictureAsk& ask) = 0;
    virtual Texture chart(const ChartAsk&) { return {}; }
    // A PNG file as it is.
    virtual Texture paper(const std::string&) { return {}; }
};

class NoTextures final : public TextureSource {
  public:
    Texture picture(const PictureAsk&) override { return {}; }
};

// What paints a drawing for the window; an empty raster when there is none.
using Paint = std::function<Drawing(const PictureAsk&)>;

}  // namespace holdpin
