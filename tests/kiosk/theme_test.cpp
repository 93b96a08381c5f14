#include <doctest/doctest.h>

#include <array>

#include "kiosk/theme.hpp"

using namespace holdpin;

namespace {

struct Pair {
    Token ink;
    Token ground;
};

// Every combination in which the kit writes text.
constexpr std::array<Pair, 21> kWritten = {{
    {Token::ink, Token::ground},     {Token::ink_2, Token::ground},
    {Token::touch, Token::ground},   {Token::held, Token::ground},
    {Token::ink, Token::strip},      {Token::ink_2, Token::strip},
    {Token::ink, Token::plate},      {Token::ink_2, Token::plate},
    {Token::touch, Token::plate},    {Token::held, Token::plate},
    {Token::on_touch, Token::touch}, {Token::ink, Token::tile},
    {Token::ink, Token::tile_down},  {Token::on_on, Token::on},
    {Token::ink_grey, Token::grey},  {Token::ink, Token::warning_body},
    {Token::white, Token::danger},   {Token::white, Token::notice},
    {Token::black, Token::caution},  {Token::black, Token::warning},
    {Token::ink, Token::grey},
}};

}  // namespace

TEST_SUITE("kiosk") {
TEST_CASE("contrast is 21 for black on white and 1 for a colour on itself") {
    CHECK(contrast({0, 0, 0}, {255, 255, 255}) == doctest::Approx(21.0));
    CHECK(contrast({255, 255, 255}, {0, 0, 0}) == doctest::Approx(21.0));
    CHECK(contrast({90, 90, 90}, {90, 90, 90}) == doctest::Approx(1.0));
}

TEST_CASE("contrast agrees with a worked example: #767676 on white is 4.54") {
    CHECK(contrast({0x76, 0x76, 0x76}, {255, 255, 255}) == doctest::Approx(4.54).epsilon(0.002));
}

TEST_CASE("every pair of colours that carries text reaches 7 to 1, by day and by night") {
    for (const Pair& pair : kWritten) {
        for (const bool night : {false, true}) {
            CAPTURE(static_cast<int>(pair.ink));
            CAPTURE(static_cast<int>(pair.ground));
            CAPTURE(night);
            CHECK(contrast(color_of(pair.ink, night), color_of(pair.ground, night)) >= 7.0);
        }
    }
}
}
