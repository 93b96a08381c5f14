#include "kiosk/theme.hpp"

#include <cmath>

namespace holdpin {

namespace {

struct Pair {
    std::uint32_t day;
    std::uint32_t night;
};

// Ground rules of the look, then what the sketches add. ISO 3864 colours are the same by night.
Pair pair_of(Token token) {
    switch (token) {
        case Token::ground: return {0xEFEDE6, 0x14181C};
        case Token::strip: return {0xE4E1D7, 0x0E1114};
        case Token::plate: return {0xFBFAF6, 0x1D2328};
        case Token::ink: return {0x15191D, 0xEDEFF1};
        case Token::ink_2: return {0x3C434A, 0xBAC2C8};
        case Token::touch: return {0x1F4E6B, 0xA9C8DC};
        case Token::on_touch: return {0xFFFFFF, 0x14181C};
        case Token::tile: return {0xD7E2EA, 0x22323D};
        case Token::tile_down: return {0xB9CEDC, 0x33495A};
        case Token::line: return {0xB9B6AB, 0x3C444B};
        case Token::held: return {0x8E1E1E, 0xFF9A91};
        case Token::danger: return {0x9B2423, 0x9B2423};
        case Token::warning: return {0xF07F1A, 0xF07F1A};
        case Token::due: return {0xF07F1A, 0xF2A35E};
        case Token::on: return {0x145A37, 0x7FD1A4};
        case Token::on_on: return {0xFFFFFF, 0x14181C};
        case Token::caution: return {0xF9A800, 0xF9A800};
        case Token::notice: return {0x005387, 0x005387};
        case Token::white: return {0xFFFFFF, 0xFFFFFF};
        case Token::black: return {0x000000, 0x000000};
        case Token::grey: return {0xC9C6BD, 0x2A3036};
        case Token::ink_grey: return {0x2E343A, 0xC4CBD0};
        case Token::progress: return {0x7FA3B8, 0x6C93AC};
        case Token::to_come: return {0xD2CFC4, 0x333A40};
        case Token::lug: return {0xC9CED2, 0x59636B};
        case Token::lug_open: return {0xDEDCD4, 0x2E353B};
        case Token::lug_edge: return {0x8D8B83, 0x7E878E};
        case Token::rivet: return {0xC9CED2, 0x59636B};
        case Token::warning_body: return {0xFFFFFF, 0x1D2328};
    }
    return {0, 0xFFFFFF};
}

double linear(std::uint8_t channel) {
    const double part = channel / 255.0;
    return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
}

}  // namespace

Color color_of(Token token, bool night) {
    const Pair pair = pair_of(token);
    const std::uint32_t rgb = night ? pair.night : pair.day;
    return {static_cast<std::uint8_t>(rgb >> 16 & 0xFF), static_cast<std::uint8_t>(rgb >> 8 & 0xFF),
            static_cast<std::uint8_t>(rgb & 0xFF)};
}

double relative_luminance(Color color) {
    return 0.2126 * linear(color.r) + 0.7152 * linear(color.g) + 0.0722 * linear(color.b);
}

double contrast(Color a, Color b) {
    const double first = relative_luminance(a);
    const double second = relative_luminance(b);
    const double lighter = first > second ? first : second;
    const double darker = first > second ? second : first;
    return (lighter + 0.05) / (darker + 0.05);
}

}  // namespace holdpin
