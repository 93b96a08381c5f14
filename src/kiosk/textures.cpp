#include "kiosk/textures.hpp"

#include <GL/gl.h>
#include <GL/glext.h>

#include <algorithm>
#include <cstdio>
#include <utility>

#include "base/result.hpp"
#include "base/text.hpp"
#include "picture/drawing.hpp"

namespace holdpin {

namespace {

constexpr std::size_t kMostBytes = std::size_t{64} << 20U;  // many screens of pictures

std::string key_of(const PictureAsk& ask) {
    std::string key = ask.file + '|' + std::to_string(ask.width) + 'x' +
                      std::to_string(ask.height) + (ask.night ? 'n' : 'd');
    for (const auto& part : ask.parts) {
        key += '|' + part.id;
    }
    return key;
}

GLuint uploaded(const Raster& raster) {
    GLuint id = 0;
    glGenTextures(1, &id);
    glBindTexture(GL_TEXTURE_2D, id);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, raster.width, raster.height, 0, GL_RGBA,
                 GL_UNSIGNED_BYTE, raster.rgba.data());
    return id;
}

void drop(const Texture& texture) {
    if (texture.id != 0) {
        const auto id = static_cast<GLuint>(texture.id);
        glDeleteTextures(1, &id);
    }
}

void report(const Error& error) {
    std::fprintf(stderr, "<4>%s\n", error.sentence().c_str());
}

Result<Drawing> painted(const std::string& folder, const PictureAsk& ask) {
    const std::string path = folder + "/" + ask.file + ".svg";
    DrawingOrder order{.svg = TRY(read_file(path)),
                       .where = path,
                       .width = ask.width,
                       .height = ask.height,
                       .parts = {},
                       .night = ask.night};
    for (const auto& part : ask.parts) {
        order.parts.push_back(part.id);
    }
    auto drawing = draw_svg(order);
    if (!drawing.ok() && drawing.error().kind == ErrorKind::absent) {
        report(drawing.error());
        order.parts.clear();
        return draw_svg(order);
    }
    return drawing;
}

}  // namespace

TextureCache::TextureCache(Paint paint) : paint_(std::move(paint)) {}

TextureCache::~TextureCache() {
    for (const auto& [key, kept] : kept_) {
        drop(kept.texture);
    }
}

Texture TextureCache::picture(const PictureAsk& ask) {
    const std::string key = key_of(ask);
    const auto found = kept_.find(key);
    if (found != kept_.end()) {
        found->second.used = ++uses_;
        return found->second.texture;
    }
    Drawing drawing = paint_(ask);
    Kept kept{{}, drawing.raster.rgba.size(), ++uses_};
    if (!drawing.raster.rgba.empty()) {
        kept.texture = {uploaded(drawing.raster), drawing.raster.width, drawing.raster.height,
                        std::move(drawing.parts)};
    }
    bytes_ += kept.bytes;
    const Texture texture = kept.texture;
    kept_.emplace(key, std::move(kept));
    make_room();
    return texture;
}

// One frame shows far less than the limit, so what this frame uses is never the longest unused.
void TextureCache::make_room() {
    while (bytes_ > kMostBytes && kept_.size() > 1) {
        const auto oldest =
            std::min_element(kept_.begin(), kept_.end(), [](const auto& a, const auto& b) {
                return a.second.used < b.second.used;
            });
        drop(oldest->second.texture);
        bytes_ -= oldest->second.bytes;
        kept_.erase(oldest);
    }
}

Paint illustration_paint(std::string folder) {
    return [folder = std::move(folder)](const PictureAsk& ask) {
        auto drawing = painted(folder, ask);
        if (!drawing.ok()) {
            report(drawing.error());
            return Drawing{};
        }
        return std::move(drawing).value();
    };
}

}  // namespace holdpin
