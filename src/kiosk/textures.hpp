// Illustrations on the graphics card. Each drawing is painted once at the size it is shown in and
// kept until others need the room (the one unused longest goes first). Make, use and destroy it on
// the thread whose OpenGL context is current. A drawing that cannot be painted is asked for once
// and then stays empty; the reason goes to the standard error output.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>

#include "kiosk/texture.hpp"

namespace holdpin {

class TextureCache final : public TextureSource {
  public:
    explicit TextureCache(Paint paint);
    ~TextureCache() override;
    TextureCache(const TextureCache&) = delete;
    TextureCache& operator=(const TextureCache&) = delete;

    Texture picture(const PictureAsk& ask) override;

  private:
    struct Kept {
        Texture texture;
        std::size_t bytes = 0;
        std::uint64_t used = 0;  // value of uses_ when it was last asked for
    };
    void make_room();

    Paint paint_;
    std::map<std::string, Kept> kept_;
    std::size_t bytes_ = 0;
    std::uint64_t uses_ = 0;
};

// Paints `folder`/<file>.svg. A part that the drawing lacks is left unmarked.
Paint illustration_paint(std::string folder);

}  // namespace holdpin
