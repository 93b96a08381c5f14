// What a Show is drawn on: a window, or nothing at all. Owns an ImGui context; between begin() and
// end() that context is the current one and a frame is open.
#pragma once

#include <cstdint>
#include <memory>

#include "base/result.hpp"
#include "kiosk/fonts.hpp"
#include "kiosk/texture.hpp"
#include "picture/raster.hpp"

struct ImGuiContext;

namespace holdpin {

class Glass {
  public:
    virtual ~Glass() = default;
    virtual void begin() = 0;
    virtual void end() = 0;
    virtual Result<Raster> pixels() = 0;  // what stands there now
    virtual float width() const = 0;
    virtual float height() const = 0;
    virtual const Fonts& fonts() const = 0;
    virtual TextureSource& textures() = 0;
    // Changes whenever the picture does.
    virtual std::uint64_t picture_hash() const = 0;
};

// No display: everything is laid out and recorded, nothing is drawn. For tests and rehearsals.
class NullGlass final : public Glass {
  public:
    static Result<std::unique_ptr<NullGlass>> make(int width, int height);
    static Result<std::unique_ptr<NullGlass>> make(int width, int height, Scale scale);
    ~NullGlass() override;

    void begin() override;
    void end() override;
    Result<Raster> pixels() override;
    float width() const override { return width_; }
    float height() const override { return height_; }
    const Fonts& fonts() const override { return *fonts_; }
    TextureSource& textures() override { return textures_; }
    std::uint64_t picture_hash() const override { return hash_; }

  private:
    NullGlass(int width, int height, std::shared_ptr<Fonts> fonts);

    float width_;
    float height_;
    std::shared_ptr<Fonts> fonts_;  // shared with other glasses of this scale
    NoTextures textures_;
    ImGuiContext* context_;
    std::uint64_t hash_ = 0;
};

}  // namespace holdpin
