// Pictures and charts as OpenGL textures: each is painted once for a size, a theme and a set of
// parts or numbers, and kept until too many are. Needs the window's OpenGL context to be current.
#pragma once

#include <deque>
#include <map>
#include <string>

#include "kiosk/texture.hpp"

namespace holdpin {

class GlTextures final : public TextureSource {
  public:
    explicit GlTextures(Paint paint) : paint_(std::move(paint)) {}
    ~GlTextures() override;
    GlTextures(const GlTextures&) = delete;
    GlTextures& operator=(const GlTextures&) = delete;

    Texture picture(const PictureAsk& ask) override;
    Texture chart(const ChartAsk& ask) override;
    Texture paper(const std::string& path) override;
    // Lets go of the oldest when there are too many. Between frames: a frame may still show them.
    void tidy();

  private:
    struct KeptChart {
        ChartAsk ask;
        Texture texture;
    };

    Paint paint_;
    std::map<std::string, Texture> kept_;
    std::deque<std::string> order_;  // of kept_, oldest first
    std::deque<KeptChart> charts_;   // oldest first
    std::string paper_key_;          // of the one page that is kept; empty: none
    Texture paper_;
};

}  // namespace holdpin
