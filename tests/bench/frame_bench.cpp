// Building one frame without the GPU: every page of the gallery, in both languages and at both
// resolutions, on the glass that draws nothing, against a frame without content. A frame is
// everything between begin() and end(): layout, kit, recorder, draw lists, hash of the picture.
// Drawings are painted once and kept, as in the window.
#include <map>
#include <tuple>

#include "bench.hpp"
#include "kiosk/frame.hpp"
#include "kiosk/gallery.hpp"
#include "kiosk/glass.hpp"
#include "kiosk/illustrations.hpp"

namespace holdpin::bench {
namespace {

class KeptTextures final : public TextureSource {
  public:
    Texture picture(const PictureAsk& ask) override {
        std::string parts;
        for (const PartMark& part : ask.parts) parts += part.id + ' ';
        const auto key = std::make_tuple(ask.file, ask.width, ask.height, ask.night, parts);
        const auto kept = kept_.find(key);
        if (kept != kept_.end()) return kept->second;
        Drawing drawing = paint_(ask);
        Texture texture;
        if (!drawing.raster.rgba.empty()) {
            texture = {1, drawing.raster.width, drawing.raster.height, std::move(drawing.parts),
                       std::move(drawing.ink)};
        }
        return kept_.emplace(key, std::move(texture)).first->second;
    }

  private:
    Paint paint_ = illustration_paint(resolved({}).assets + "/illustrations");
    std::map<std::tuple<std::string, int, int, bool, std::string>, Texture> kept_;
};

struct Built {
    double page_ms = 0;
    double empty_ms = 0;
    std::string name;
};

Built build(NullGlass& glass, const Page& page, TextureSource& textures) {
    constexpr int kTurns = 101;
    Ui ui(glass.fonts(), textures);
    UiState state;
    const FrameStart start{glass.width(), glass.height(), 0, page.night, page.motion};
    const auto one = [&] {
        glass.begin();
        draw_frame(page, ui, state, start);
        glass.end();
    };
    one();  // a list learns its length in the first frame
    const std::vector<double> middle = medians(kTurns, {
        [&] { return took_ms(one); },
        [&] {
            return took_ms([&] {
                glass.begin();
                glass.end();
            });
        },
    });
    return {middle[0], middle[1], ""};
}

std::vector<Built> build_all() {
    std::vector<Built> all;
    for (const auto& [width, height] : {std::pair{1280, 800}, std::pair{1920, 1080}}) {
        const auto glass = need(NullGlass::make(width, height));
        KeptTextures textures;
        for (const char* language : {"en", "es"}) {
            for (const gallery::Exhibit& exhibit : gallery::exhibits(language)) {
                all.push_back(build(*glass, exhibit.page, textures));
                all.back().name = fmt::format("{}, {}, {}x{}", exhibit.name, language, width,
                                              height);
            }
        }
    }
    std::sort(all.begin(), all.end(),
              [](const Built& a, const Built& b) { return a.page_ms > b.page_ms; });
    return all;
}

void compare() {
    constexpr std::size_t kBusiest = 5;
    const std::vector<Built> all = build_all();
    fmt::print("frame: building one frame without the GPU, {} pages, median of 101 each\n",
               all.size());
    for (std::size_t i = 0; i < std::min(kBusiest, all.size()); ++i) {
        fmt::print("  {:8.3f} ms, {:.0f} times a frame without content  {}\n", all[i].page_ms,
                   all[i].page_ms / all[i].empty_ms, all[i].name);
    }
    std::vector<double> pages;
    for (const Built& built : all) pages.push_back(built.page_ms);
    fmt::print("  {:8.3f} ms, the page in the middle\n", median(pages));
    fmt::print("  the busiest takes {:.2f} of the 2 ms there are\n", all.front().page_ms / 2);
}

}  // namespace
}  // namespace holdpin::bench

int main() {
    holdpin::bench::compare();
    return 0;
}
