#include "picture/raster.hpp"

#include <doctest/doctest.h>

#include <array>

using namespace holdpin;

namespace {

// Cairo's ARGB32 on a little-endian machine: blue, green, red, alpha.
constexpr std::array<std::uint8_t, 4> kHalfRed = {0, 0, 128, 128};

}  // namespace

TEST_CASE("a half-transparent red keeps its full red when alpha is divided out") {
    const auto raster = from_premultiplied(kHalfRed, 1, 1, 4);
    CHECK(raster.rgba == std::vector<std::uint8_t>{255, 0, 0, 128});
}

TEST_CASE("a fully transparent pixel is black and transparent, not a division by nought") {
    const std::array<std::uint8_t, 4> nothing = {0, 0, 0, 0};
    CHECK(from_premultiplied(nothing, 1, 1, 4).rgba == std::vector<std::uint8_t>{0, 0, 0, 0});
}

TEST_CASE("a colour above its alpha is held at 255") {
    const std::array<std::uint8_t, 4> broken = {200, 0, 0, 100};
    CHECK(from_premultiplied(broken, 1, 1, 4).rgba == std::vector<std::uint8_t>{0, 0, 255, 100});
}

TEST_CASE("bytes between the rows are left out") {
    const std::array<std::uint8_t, 16> padded = {0,   0, 255, 255, 9, 9, 9, 9,
                                                 255, 0, 0,   255, 9, 9, 9, 9};
    const auto raster = from_premultiplied(padded, 1, 2, 8);
    CHECK(raster.height == 2);
    CHECK(raster.rgba == std::vector<std::uint8_t>{255, 0, 0, 255, 0, 0, 255, 255});
}

TEST_CASE("opaque pixels come back unchanged from premultiplied and straight alpha") {
    const Raster raster{2, 1, {10, 20, 30, 255, 200, 100, 50, 255}};
    const auto pixels = to_premultiplied(raster);
    CHECK(from_premultiplied(pixels, 2, 1, 8).rgba == raster.rgba);
}
