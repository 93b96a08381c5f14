#include "kiosk/kit_extra.hpp"

#include <algorithm>

#include "kiosk/widgets.hpp"

namespace holdpin {

// ---- stack ----------------------------------------------------------------------------------

void Stack::add(std::string text, TextSpec spec, float gap) {
    if (!text.empty()) {
        pieces_.push_back({std::move(text), spec, pieces_.empty() ? 0 : gap});
    }
}

float Stack::height(const Ui& ui, float width) const {
    float sum = 0;
    for (const auto& piece : pieces_) {
        sum += ui.sketch(piece.gap) + ui.paragraph_height(width, piece.text, piece.spec);
    }
    return sum;
}

float Stack::draw(Ui& ui, Rect room) const {
    const float top = room.y;
    float rest_below = height(ui, room.w);
    for (const auto& piece : pieces_) {
        const float gap = ui.sketch(piece.gap);
        const float wanted = ui.paragraph_height(room.w, piece.text, piece.spec);
        rest_below -= gap + wanted;
        room.cut_top(gap);
        const float most = std::max(wanted, room.h - rest_below);
        const Rect place{room.x, room.y, room.w, std::min(most, room.h)};
        room.cut_top(wanted <= place.h + 0.5F
                         ? ui.paragraph({place.x, place.y}, place.w, piece.text, piece.spec)
                         : ui.fitted_top(place, piece.text, piece.spec));
    }
    return room.y - top;
}

// ---- settings -------------------------------------------------------------------------------

Type action_type(Setting setting) { return setting == Setting::large ? Type::big : Type::heading; }

Type body_type(Setting setting) { return setting == Setting::small ? Type::small : Type::body; }

Type body_bold_type(Setting setting) {
    return setting == Setting::small ? Type::small_bold : Type::body_bold;
}

Type aside_type(Setting setting) {
    return setting == Setting::compact || setting == Setting::small ? Type::small : Type::body;
}

Setting setting_that_fits(float room, const std::function<float(Setting)>& height) {
    for (const Setting setting : kSettings) {
        if (height(setting) <= room) {
            return setting;
        }
    }
    return Setting::small;
}

// ---- warnings -------------------------------------------------------------------------------

namespace {

struct SignalLook {
    Token ground;
    Token ink;
};

// ANSI Z535.4 and ISO 3864-2 give the band its colours; their contrast is not ours to choose.
SignalLook look_of(Signal signal) {
    switch (signal) {
        case Signal::danger:
            return {Token::danger, Token::white};
        case Signal::warning:
            return {Token::warning, Token::black};
        case Signal::caution:
            return {Token::caution, Token::black};
        case Signal::notice:
            return {Token::notice, Token::white};
    }
    return {Token::notice, Token::white};
}

constexpr float kBandPadding = 20;  // sketch pixels, left and right
constexpr float kBandGap = 12;      // between two warnings

float band_head(const Ui& ui) { return ui.line_height(Type::heading) + ui.sketch(8); }

TextSpec band_words(Setting setting) { return {.type = aside_type(setting), .ink = Token::ink}; }

}  // namespace

float warning_band_height(const Ui& ui, float width, const WarningView& warning, Setting setting) {
    const float room = width - 2 * ui.sketch(kBandPadding);
    return band_head(ui) + ui.paragraph_height(room, warning.text, band_words(setting)) +
           ui.sketch(20);
}

float warning_band(Ui& ui, Dot at, float width, const WarningView& warning, Setting setting) {
    const Rect whole{at.x, at.y, width, warning_band_height(ui, width, warning, setting)};
    const SignalLook look = look_of(warning.signal);
    const float radius = ui.sketch(10);
    Rect rest = whole;
    const Rect head = rest.cut_top(band_head(ui));
    ui.fill(whole, look.ground, radius);
    const Rect words = {rest.x + ui.sketch(2), rest.y, rest.w - ui.sketch(4),
                        rest.h - ui.sketch(2)};
    ui.fill(words, Token::warning_body, ui.sketch(8));
    ui.edge(whole, Token::ink, ui.sketch(2), radius);
    float x = head.x + ui.sketch(kBandPadding);
    if (warning.signal != Signal::notice) {
        const float size = head.h * 0.72F;
        warning_triangle(ui, {x + size / 2, head.middle().y}, size, look.ink, look.ground);
        x += size + ui.sketch(14);
    }
    ui.text({x, head.middle().y - ui.line_height(Type::heading) / 2}, warning.word,
            {.type = Type::heading, .ink = look.ink, .exempt = true});
    ui.paragraph({words.x + ui.sketch(kBandPadding - 2), words.y + ui.sketch(8)},
                 width - 2 * ui.sketch(kBandPadding), warning.text, band_words(setting));
    return whole.h;
}

float warning_bands_height(const Ui& ui, float width, const std::vector<WarningView>& warnings,
                           Setting setting) {
    float sum = 0;
    for (const auto& warning : warnings) {
        sum += warning_band_height(ui, width, warning, setting) + ui.sketch(kBandGap);
    }
    return warnings.empty() ? 0 : sum - ui.sketch(kBandGap);
}

float warning_bands(Ui& ui, Dot at, float width, const std::vector<WarningView>& warnings,
                    Setting setting) {
    const float top = at.y;
    for (const auto& warning : warnings) {
        at.y += warning_band(ui, at, width, warning, setting) + ui.sketch(kBandGap);
    }
    return warnings.empty() ? 0 : at.y - ui.sketch(kBandGap) - top;
}

// ---- remark ---------------------------------------------------------------------------------

namespace {

constexpr float kRemarkPadding = 18;

TextSpec remark_words(bool held) {
    return {.type = Type::body, .ink = held ? Token::held : Token::ink};
}

}  // namespace

float remark_band_height(const Ui& ui, float width, const std::string& remark) {
    const float room = width - 2 * ui.sketch(kRemarkPadding);
    return remark.empty() ? 0
                          : ui.paragraph_height(room, remark, remark_words(false)) +
                                2 * ui.sketch(kRemarkPadding - 4);
}

void remark_band(Ui& ui, Rect room, const std::string& remark, bool held) {
    if (remark.empty()) {
        return;
    }
    ui.fill(room, Token::plate, ui.sketch(6));
    ui.fill({room.x, room.y, ui.sketch(6), room.h}, held ? Token::held : Token::touch,
            ui.sketch(3));
    ui.fitted(room.inset(ui.sketch(kRemarkPadding), ui.sketch(kRemarkPadding - 8)), remark,
              remark_words(held));
}

}  // namespace holdpin
