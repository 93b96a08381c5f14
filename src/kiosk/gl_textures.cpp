#include "kiosk/gl_textures.hpp"

#include <GL/gl.h>
#include <GL/glext.h>

#include <cstdio>
#include <filesystem>

#include "picture/png.hpp"

namespace holdpin {

namespace {

constexpr std::size_t kMost = 48;
constexpr std::size_t kMostCharts = 4;  // a dial that is turned back finds its chart again

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

Texture uploaded(const Raster& raster) {
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
    return {name, raster.width, raster.height, {}};
}

}  // namespace

GlTextures::~GlTextures() {
    for (const auto& [key, texture] : kept_) {
        release(texture);
    }
    for (const KeptChart& kept : charts_) {
        release(kept.texture);
    }
    release(paper_);
}

// A chart that is refused stays empty; the words beside it say the same.
Texture GlTextures::chart(const ChartAsk& ask) {
    for (const KeptChart& kept : charts_) {
        if (kept.ask == ask) {
            return kept.texture;
        }
    }
    const auto drawing = draw_chart(ask.chart, {static_cast<double>(ask.width),
                                                static_cast<double>(ask.height),
                                                static_cast<double>(ask.unit), ask.night});
    if (!drawing.ok()) {
        std::fprintf(stderr, "<4>%s\n", drawing.error().sentence().c_str());
    }
    charts_.push_back({ask, drawing.ok() ? uploaded(drawing.value().raster) : Texture{}});
    return charts_.back().texture;
}

// By path and time of writing, so that a file that was exchanged is not shown as it was.
Texture GlTextures::paper(const std::string& path) {
    std::error_code failed;
    const auto written = std::filesystem::last_write_time(path, failed);
    const std::string key = path + "|" + std::to_string(written.time_since_epoch().count());
    if (failed || key == paper_key_) {
        return paper_;
    }
    const auto raster = read_png(path);
    if (!raster.ok()) {
        std::fprintf(stderr, "<4>%s\n", raster.error().sentence().c_str());
    }
    release(paper_);
    paper_ = raster.ok() ? uploaded(raster.value()) : Texture{};
    paper_key_ = key;
    return paper_;
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
    const Drawing drawing = paint_(ask);
    Texture texture = uploaded(drawing.raster);
    texture.parts = drawing.parts;
    texture.ink = drawing.ink;
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
    while (charts_.size() > kMostCharts) {
        release(charts_.front().texture);
        charts_.pop_front();
    }
}

}  // namespace holdpin
