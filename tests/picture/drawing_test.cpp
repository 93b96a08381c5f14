#include "picture/drawing.hpp"

#include <doctest/doctest.h>

#include <array>

using namespace holdpin;

namespace {

const std::string kSquare = R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 50">
<style>.body{fill:#D3D0C8} .ink{stroke:#15191D;fill:none}</style>
<g id="tank"><rect class="body" x="10" y="10" width="20" height="30"/></g>
<rect class="body" id="seat" x="60" y="10" width="20" height="30"/>
<path class="ink" d="M0 49 H100"/></svg>)";

DrawingOrder order_of(const std::string& svg, std::vector<std::string> parts = {}) {
    return {.svg = svg,
            .where = "square.svg",
            .width = 200,
            .height = 100,
            .parts = std::move(parts),
            .night = false};
}

std::array<int, 4> pixel(const Raster& raster, int x, int y) {
    const auto at = (static_cast<std::size_t>(y) * static_cast<std::size_t>(raster.width) +
                     static_cast<std::size_t>(x)) *
                    4U;
    return {raster.rgba[at], raster.rgba[at + 1], raster.rgba[at + 2], raster.rgba[at + 3]};
}

}  // namespace

TEST_CASE("a picture is drawn at the size asked for") {
    const auto drawing = draw_svg(order_of(kSquare));
    REQUIRE(drawing.ok());
    CHECK(drawing.value().raster.rgba.size() == 200U * 100U * 4U);
    CHECK(pixel(drawing.value().raster, 40, 50) == std::array{0xD3, 0xD0, 0xC8, 255});
    CHECK(pixel(drawing.value().raster, 2, 2)[3] == 0);
}

TEST_CASE("a marked part is painted in the accent and the others are not") {
    const auto drawing = draw_svg(order_of(kSquare, {"tank"}));
    REQUIRE(drawing.ok());
    CHECK(pixel(drawing.value().raster, 40, 50) == std::array{0xBF, 0xD5, 0xE3, 255});
    CHECK(pixel(drawing.value().raster, 140, 50) == std::array{0xD3, 0xD0, 0xC8, 255});
}

TEST_CASE("the element itself may be the area that is painted") {
    const auto drawing = draw_svg(order_of(kSquare, {"seat"}));
    REQUIRE(drawing.ok());
    CHECK(pixel(drawing.value().raster, 140, 50) == std::array{0xBF, 0xD5, 0xE3, 255});
}

TEST_CASE("a part's box lies inside the picture and around the part") {
    const auto drawing = draw_svg(order_of(kSquare, {"tank", "seat"}));
    REQUIRE(drawing.ok());
    REQUIRE(drawing.value().parts.size() == 2);
    const auto& box = drawing.value().parts.front();
    CHECK(box.x == doctest::Approx(20));
    CHECK(box.width == doctest::Approx(40));
    for (const auto& part : drawing.value().parts) {
        CHECK(part.x >= 0);
        CHECK(part.x + part.width <= 200);
        CHECK(part.y + part.height <= 100);
    }
}

TEST_CASE("a straight stroke in a part does not stretch its box to the corner of the picture") {
    const auto drawing = draw_svg(order_of(
        "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 100 50'><g id='dial'>"
        "<circle cx='50' cy='25' r='10'/><path style='fill:none;stroke:red' d='M50 20 v8'/></g>"
        "</svg>",
        {"dial"}));
    REQUIRE(drawing.ok());
    CHECK(drawing.value().parts.front().x == doctest::Approx(80).epsilon(0.02));
    CHECK(drawing.value().parts.front().height == doctest::Approx(40).epsilon(0.03));
}

TEST_CASE("the box of a picture without ink has no size") {
    CHECK(ink_box(Raster{1, 1, {0, 0, 0, 0}}).width == 0);
}

TEST_CASE("at night outlines are light and areas dark") {
    auto order = order_of(kSquare);
    order.night = true;
    const auto drawing = draw_svg(order);
    REQUIRE(drawing.ok());
    CHECK(pixel(drawing.value().raster, 40, 50) == std::array{0x3B, 0x43, 0x4A, 255});
    CHECK(pixel(drawing.value().raster, 100, 98)[0] > 0xE0);
}

TEST_CASE("the exchange of colours leaves ids and unknown colours as they are") {
    CHECK(in_night_colours("a #15191D b #F9A800 url(#tank)") == "a #edeff1 b #F9A800 url(#tank)");
    CHECK(in_night_colours("#fff #") == "#fff #");
}

TEST_CASE("a part that is not in the picture is named in the error") {
    const auto drawing = draw_svg(order_of(kSquare, {"mast"}));
    REQUIRE_FALSE(drawing.ok());
    CHECK(drawing.error().kind == ErrorKind::absent);
    CHECK(drawing.error().sentence() ==
          "square.svg: the picture has no part \"mast\"; give an element of the drawing this id, "
          "or name another part");
}

TEST_CASE("a text that is no SVG gives a sentence, not a crash") {
    const auto drawing = draw_svg(order_of("<svg xmlns='http://www.w3.org/2000/svg'><rect"));
    REQUIRE_FALSE(drawing.ok());
    CHECK(drawing.error().kind == ErrorKind::invalid);
    CHECK(drawing.error().sentence().starts_with("square.svg: the picture cannot be drawn: "));
    CHECK_FALSE(draw_svg(order_of("")).ok());
}

TEST_CASE("a picture without a size is refused") {
    auto order = order_of(kSquare);
    order.width = 0;
    CHECK_FALSE(draw_svg(order).ok());
}
