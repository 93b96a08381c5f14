#include "kiosk/gl_textures.hpp"

#include <GL/gl.h>
#include <GL/glext.h>

namespace holdpin {

namespace {

constexpr std::size_t kMost = 48;

std::string key_of(const PictureAsk& ask) {
    std::string key = ask.file + "|" + std::to_string(ask.width) + "x" +
                      std::to_string(ask.height) + (ask.night ? "|night" : "|day");
    for (const PartMark& part : ask.parts) {
        key += "|" + part.id;
    }
    return key;
}

void release(const Texture& texture) {
    const auto name = static_cast<GLuint>(texture.id);
    if (name != 0) {
        glDeleteTextures(1, &name);
    }
}

Texture uploaded(const Drawing& drawing) {
    const Raster& raster = drawing.raster;
    if (raster.width <= 0 || raster.height <= 0) {
        return {};
    }
    GLuint name = 0;
    glGenTextures(1, &name);
    glBindTexture(GL_TEXTURE_2D, name);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA, raster.width, raster.height, 0, GL_RGBA,
                 GL_UNSIGNED_BYTE, raster.rgba.data());
    return {name, raster.width, raster.height, drawing.parts};
}

}  // namespace

GlTextures::~GlTextures() {
    for (const auto& [key, texture] : kept_) {
        release(texture);
    }
}

Texture GlTextures::picture(const PictureAsk& ask) {
    if (!paint_) {
        return {};
    }
    const std::string key = key_of(ask);
    const auto found = kept_.find(key);
    if (found != kept_.end()) {
        return found->second;
    }
    const Texture texture = uploaded(paint_(ask));
    kept_.emplace(key, texture);
    order_.push_back(key);
    return texture;
}

void GlTextures::tidy() {
    while (order_.size() > kMost) {
        const auto oldest = kept_.find(order_.front());
        release(oldest->second);
        kept_.erase(oldest);
        order_.pop_front();
    }
}

}  // namespace holdpin
