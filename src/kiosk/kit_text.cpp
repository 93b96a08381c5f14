// The text half of the kit: measuring, wrapping, fitting, and the record of what was written.

#include <algorithm>
#include <cmath>

#include "kiosk/imgui_compat.hpp"
#include "kiosk/kit.hpp"
#include "kiosk/wrap.hpp"

namespace holdpin {

namespace {

constexpr float kColumnLetters = 50;  // longest line of reading

float measure(const ImFont& font, std::string_view text) {
    const char* begin = text.data();
    return font.CalcTextSizeA(font.FontSize, 1e9F, 0, begin, begin + text.size()).x;
}

float height_of(const ImFont& font, const Wrapped& wrapped, const TextSpec& spec) {
    const auto steps = static_cast<float>(wrapped.lines.size()) - 1;
    return font.FontSize * (1 + steps * spec.leading);
}

float start_of(Align align, float x, float room, float width) {
    switch (align) {
        case Align::left: return x;
        case Align::middle: return x + (room - width) / 2;
        case Align::right: return x + room - width;
    }
    return x;
}

}  // namespace

float Ui::line_height(Type type) const {
    return fonts_.font(type)->FontSize;
}

float Ui::text_width(std::string_view text, Type type) const {
    return measure(*fonts_.font(type), text);
}

float Ui::column(float width, Type type) const {
    // The mean width of a letter in running English and Spanish is close to that of "n".
    return std::min(width, kColumnLetters * text_width("n", type));
}

void Ui::text(Dot at, std::string_view text, const TextSpec& spec) {
    const float width = text_width(text, spec.type);
    const float x = spec.align == Align::left     ? at.x
                    : spec.align == Align::middle ? at.x - width / 2
                                                  : at.x - width;
    const ImFont* font = fonts_.font(spec.type);
    const ImVec2 corner(std::round(x), std::round(at.y));
    draw_->AddText(font, font->FontSize, corner, packed(spec.ink), text.data(),
                   text.data() + text.size());
    record_text({x, at.y, width, font->FontSize}, text, spec, false);
}

float Ui::draw_lines(Dot at, float width, std::string_view text, const TextSpec& spec,
                     bool clipped) {
    const ImFont* font = fonts_.font(spec.type);
    const Wrapped wrapped =
        wrap(text, width, [font](std::string_view piece) { return measure(*font, piece); });
    float y = at.y;
    float left = at.x + width;
    float widest = 0;
    for (const std::string_view line : wrapped.lines) {
        const float line_width = measure(*font, line);
        const float x = start_of(spec.align, at.x, width, line_width);
        if (!line.empty()) {
            draw_->AddText(font, font->FontSize, ImVec2(std::round(x), std::round(y)),
                           packed(spec.ink), line.data(), line.data() + line.size());
        }
        left = std::min(left, x);
        widest = std::max(widest, line_width);
        y += font->FontSize * spec.leading;
    }
    const float height = height_of(*font, wrapped, spec);
    record_text({left, at.y, widest, height}, text, spec, clipped || wrapped.broke_a_word);
    return height;
}

float Ui::paragraph(Dot at, float width, std::string_view text, const TextSpec& spec) {
    return text.empty() ? 0 : draw_lines(at, width, text, spec, false);
}

float Ui::paragraph_height(float width, std::string_view text, const TextSpec& spec) const {
    if (text.empty()) {
        return 0;
    }
    const ImFont* font = fonts_.font(spec.type);
    const Wrapped wrapped =
        wrap(text, width, [font](std::string_view piece) { return measure(*font, piece); });
    return height_of(*font, wrapped, spec);
}

bool Ui::holds_words(float width, std::string_view text, Type type) const {
    const ImFont* font = fonts_.font(type);
    return !wrap(text, width, [font](std::string_view piece) {
                return measure(*font, piece);
            }).broke_a_word;
}

// The largest type not above the one asked for with which the text stays inside the room.
static bool fits(const Fonts& fonts, Rect room, std::string_view text, const TextSpec& spec) {
    const ImFont* font = fonts.font(spec.type);
    const Wrapped wrapped =
        wrap(text, room.w, [font](std::string_view piece) { return measure(*font, piece); });
    const float height = height_of(*font, wrapped, spec);
    return !wrapped.broke_a_word && height <= room.h + 0.5F;
}

static TextSpec spec_that_fits(const Fonts& fonts, Rect room, std::string_view text,
                               TextSpec spec) {
    while (!fits(fonts, room, text, spec) && one_smaller(spec.type) != spec.type) {
        spec.type = one_smaller(spec.type);
    }
    return spec;
}

void Ui::fitted(Rect room, std::string_view text, TextSpec spec) {
    if (text.empty()) {
        return;
    }
    spec = spec_that_fits(fonts_, room, text, spec);
    const float height = paragraph_height(room.w, text, spec);
    const float top = room.y + std::max(0.0F, (room.h - height) / 2);
    draw_lines({room.x, top}, room.w, text, spec, !fits(fonts_, room, text, spec));
}

float Ui::fitted_top(Rect room, std::string_view text, TextSpec spec) {
    if (text.empty()) {
        return 0;
    }
    spec = spec_that_fits(fonts_, room, text, spec);
    return draw_lines({room.x, room.y}, room.w, text, spec, !fits(fonts_, room, text, spec));
}

// A line is higher than what is written in it. Accents may stand above the capitals and tails
// below them; the large numbers have neither.
static Rect ink_box(const Fonts& fonts, Rect lines, Type type) {
    const bool numbers = type == Type::plate || type == Type::plate_huge;
    const float above = fonts.above_capitals(type);
    const float below = fonts.font(type)->FontSize - above - fonts.capitals(type);
    const float top = numbers ? above : above * 0.5F;
    const float bottom = numbers ? below : below * 0.3F;
    return {lines.x, lines.y + top, lines.w, std::max(1.0F, lines.h - top - bottom)};
}

void Ui::record_text(Rect rect, std::string_view text, const TextSpec& spec, bool clipped) {
    Drawn drawn;
    drawn.text = std::string(text);
    drawn.rect = ink_box(fonts_, rect, spec.type);
    drawn.visible = visible_part(drawn.rect);
    drawn.scrolls = scroll_.open;
    drawn.exempt = spec.exempt;
    drawn.over = spec.over;
    drawn.clipped = clipped;
    const Color ink = color_of(spec.ink, night());
    const Color ground = color_of(behind(rect.middle()), night());
    drawn.contrast = static_cast<float>(contrast(ink, ground));
    drawn.missing_glyph = !fonts_.knows(spec.type, drawn.text);
    recorder_.drawn.push_back(std::move(drawn));
}

}  // namespace holdpin
