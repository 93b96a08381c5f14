// Every body of page.hpp in both languages on the three displays of look.md: laid out by the real
// screens with the real drawings, on no display, and judged by the audit.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "gallery.hpp"
#include "kiosk/audit.hpp"
#include "kiosk/frame.hpp"
#include "kiosk/glass.hpp"
#include "kiosk/illustrations.hpp"

using namespace holdpin;

namespace {

struct Size {
    int width;
    int height;
};
constexpr Size kTablet{1280, 800};
constexpr Size kTabletUpright{800, 1280};
constexpr Size kDisplay{1920, 1080};

// Paints the drawings to know where their parts are, and shows nothing.
class PaintedTextures final : public TextureSource {
  public:
    Texture picture(const PictureAsk& ask) override {
        Drawing drawing = paint_(ask);
        if (drawing.raster.rgba.empty()) {
            missing.insert(ask.file);
            return {};
        }
        return {1, drawing.raster.width, drawing.raster.height, std::move(drawing.parts),
                std::move(drawing.ink)};
    }
    std::set<std::string> missing;

  private:
    Paint paint_ =
        illustration_paint(std::string(HOLDPIN_TEST_SOURCE_DIR) + "/assets/illustrations");
};

// Lays a page out the way a window would: twice, since a list learns its length in the first frame.
class Room {
  public:
    explicit Room(Size size) : glass_(NullGlass::make(size.width, size.height)) {
        REQUIRE(glass_.ok());
    }

    const Recorder& show(const Page& page, TextureSource& textures) {
        NullGlass& glass = *glass_.value();
        ui_ = std::make_unique<Ui>(glass.fonts(), textures);
        UiState state;
        for (int frame = 0; frame < 2; ++frame) {
            glass.begin();
            draw_frame(page, *ui_, state,
                       {glass.width(), glass.height(), 0, page.night, page.motion});
            glass.end();
        }
        return ui_->recorder();
    }
    Scale scale() { return glass_.value()->fonts().scale(); }

  private:
    Result<std::unique_ptr<NullGlass>> glass_;
    std::unique_ptr<Ui> ui_;
};

void check_gallery(Size size, std::string_view language) {
    Room room(size);
    PaintedTextures textures;
    for (const auto& exhibit : gallery::exhibits(language)) {
        CAPTURE(exhibit.name);
        for (const auto& fault : audit(room.show(exhibit.page, textures), room.scale())) {
            FAIL_CHECK(fault);
        }
    }
    CHECK(textures.missing.empty());
}

bool shows(const Recorder& recorder, const std::string& text) {
    return std::any_of(recorder.drawn.begin(), recorder.drawn.end(), [&](const Drawn& drawn) {
        return drawn.text == text && !drawn.visible.is_empty();
    });
}

const gallery::Exhibit& named(const std::vector<gallery::Exhibit>& all, std::string_view name) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const gallery::Exhibit& exhibit) {
        return exhibit.name == name;
    });
    REQUIRE(found != all.end());
    return *found;
}

}  // namespace

TEST_CASE("every screen keeps the house rules on a tablet, in English") {
    check_gallery(kTablet, "en");
}

TEST_CASE("every screen keeps the house rules on a tablet, in Spanish") {
    check_gallery(kTablet, "es");
}

TEST_CASE("every screen keeps the house rules on an upright tablet, in English") {
    check_gallery(kTabletUpright, "en");
}

TEST_CASE("every screen keeps the house rules on an upright tablet, in Spanish") {
    check_gallery(kTabletUpright, "es");
}

TEST_CASE("every screen keeps the house rules on a large display, in English") {
    check_gallery(kDisplay, "en");
}

TEST_CASE("every screen keeps the house rules on a large display, in Spanish") {
    check_gallery(kDisplay, "es");
}

TEST_CASE("the gallery has a page for every body") {
    std::set<std::size_t> bodies;
    for (const auto& exhibit : gallery::exhibits("en")) {
        bodies.insert(exhibit.page.body.index());
    }
    CHECK(bodies.size() == std::variant_size_v<Body>);
}

TEST_CASE("the emergency page shows all its tiles at once, without scrolling") {
    const auto all = gallery::exhibits("es");
    const auto& page = named(all, "emergency").page;
    for (const Size size : {kTablet, kTabletUpright, kDisplay}) {
        Room room(size);
        NoTextures textures;
        const Recorder& recorder = room.show(page, textures);
        for (const auto& tile : std::get<GridBody>(page.body).tiles) {
            CHECK(shows(recorder, tile.label));
        }
    }
}

TEST_CASE("the fullest point shows its warning, question, look line, answers and remark together") {
    const auto all = gallery::exhibits("es");
    const auto& page = named(all, "choice-full").page;
    const auto& body = std::get<ChoiceBody>(page.body);
    for (const Size size : {kTablet, kTabletUpright, kDisplay}) {
        Room room(size);
        NoTextures textures;
        const Recorder& recorder = room.show(page, textures);
        CHECK(shows(recorder, body.warnings.front().text));
        CHECK(shows(recorder, body.question));
        CHECK(shows(recorder, body.look));
        CHECK(shows(recorder, body.remark));
        for (const auto& tile : body.tiles) {
            CHECK(shows(recorder, tile.label));
        }
    }
}
