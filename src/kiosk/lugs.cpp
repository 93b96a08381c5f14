// Lugs and pins. All lengths are in thirtieths of a lug's height, so that a pair keeps its shape
// at every size.

#include <algorithm>
#include <array>
#include <cmath>

#include "kiosk/imgui_compat.hpp"
#include "kiosk/plate.hpp"

namespace holdpin {

namespace {

constexpr float kHeight = 30;
constexpr float kFromMiddle = 9;   // middle of a lug
constexpr float kWidth = 9;
constexpr float kRound = 3;
constexpr float kPinLeft = -15;    // a pin fully in
constexpr float kPinRight = 23;
constexpr float kPinThick = 9;
constexpr float kRingAt = -21;
constexpr float kRing = 7.5F;
constexpr float kHalfWay = -20;    // a pin that is half-way in has not reached the right lug

struct LugPair {
    Ui& ui;
    Dot middle;
    float unit;

    float x(float at) const { return middle.x + at * unit; }
    float y(float at) const { return middle.y + at * unit; }
    Rect rect(float left, float top, float width, float height) const {
        return {x(left), y(top), width * unit, height * unit};
    }
    Rect lug(int side) const {
        const float at = static_cast<float>(side) * kFromMiddle - kWidth / 2;
        return rect(at, -kHeight / 2, kWidth, kHeight);
    }
};

void outlined(const LugPair& pair, Rect rect, Token ground, Token edge, float round, float stroke) {
    Ui& ui = pair.ui;
    ui.draw().AddRectFilled({rect.x, rect.y}, {rect.right(), rect.bottom()}, ui.packed(ground),
                            round * pair.unit);
    ui.draw().PathRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, round * pair.unit);
    ui.draw().PathStroke(ui.packed(edge), ImDrawFlags_Closed, std::max(1.0F, stroke * pair.unit));
}

void solid_lug(const LugPair& pair, int side, bool pinned) {
    const Token ground = pinned ? Token::lug : Token::lug_open;
    const Token edge = pinned ? Token::ink : Token::lug_edge;
    outlined(pair, pair.lug(side), ground, edge, kRound, 1.8F);
}

void hole(const LugPair& pair, int side, Token edge) {
    const Dot at{pair.x(static_cast<float>(side) * kFromMiddle), pair.middle.y};
    pair.ui.disc(at, 2.6F * pair.unit, Token::ground);
    pair.ui.ring(at, 2.6F * pair.unit, edge, std::max(1.0F, 1.4F * pair.unit));
}

// Dots along an edge, the last one short of the next corner.
void dotted_line(const LugPair& pair, Dot from, Dot to) {
    const float length = std::hypot(to.x - from.x, to.y - from.y);
    const float wanted = std::max(2.6F, 3 * pair.unit);
    const int dots = std::max(1, static_cast<int>(std::lround(length / (2 * wanted))));
    const float step = length / static_cast<float>(dots);
    for (int i = 0; i < dots; ++i) {
        const float begin = (static_cast<float>(i) + 0.25F) * step / length;
        const float end = (static_cast<float>(i) + 0.75F) * step / length;
        pair.ui.line({from.x + (to.x - from.x) * begin, from.y + (to.y - from.y) * begin},
                     {from.x + (to.x - from.x) * end, from.y + (to.y - from.y) * end},
                     Token::lug_edge, std::max(1.3F, 1.6F * pair.unit));
    }
}

void dotted_lug(const LugPair& pair, int side) {
    const Rect rect = pair.lug(side);
    const std::array<Dot, 4> corners = {Dot{rect.x, rect.y}, Dot{rect.right(), rect.y},
                                          Dot{rect.right(), rect.bottom()},
                                          Dot{rect.x, rect.bottom()}};
    for (std::size_t i = 0; i < corners.size(); ++i) {
        dotted_line(pair, corners[i], corners[(i + 1) % corners.size()]);
    }
}

// `right`, `down`: how far the pin is from where it sits when fully in.
void pin(const LugPair& pair, Token color, float right, float down) {
    Ui& ui = pair.ui;
    outlined(pair, pair.rect(kPinLeft + right, down - kPinThick / 2, kPinRight - kPinLeft,
                             kPinThick),
             color, Token::ink, 4, 1.6F);
    const Dot ring{pair.x(kRingAt + right), pair.y(down)};
    ui.ring(ring, kRing * pair.unit, Token::ink, 5.2F * pair.unit);
    ui.ring(ring, kRing * pair.unit, color, 2.4F * pair.unit);
}

LugPair pair_of(Ui& ui, Dot middle, float height) {
    return {ui, middle, height / kHeight};
}

void open_lugs(const LugPair& pair) {
    for (const int side : {-1, 1}) {
        solid_lug(pair, side, false);
        hole(pair, side, Token::lug_edge);
    }
}

}  // namespace

void lugs(Ui& ui, Dot middle, float height, LugState state) {
    const LugPair pair = pair_of(ui, middle, height);
    switch (state) {
        case LugState::unasked:
            dotted_lug(pair, -1);
            dotted_lug(pair, 1);
            return;
        case LugState::open: open_lugs(pair); return;
        case LugState::due:
            solid_lug(pair, -1, true);
            solid_lug(pair, 1, true);
            hole(pair, 1, Token::ink);
            pin(pair, Token::due, kHalfWay, 0);
            return;
        case LugState::held:
            solid_lug(pair, -1, true);
            solid_lug(pair, 1, true);
            pin(pair, Token::held, 0, 0);
            return;
    }
}

void lugs_leaving(Ui& ui, Dot middle, float height, LugState state, float gone) {
    const LugPair pair = pair_of(ui, middle, height);
    open_lugs(pair);
    if (gone >= 1) {
        return;
    }
    const float slid = std::min(1.0F, gone / 0.6F);
    const float fallen = std::max(0.0F, (gone - 0.6F) / 0.4F);
    const float start = state == LugState::due ? kHalfWay : 0;
    pin(pair, state == LugState::due ? Token::due : Token::held, start - 44 * slid,
        50 * fallen * fallen);
}

float lugs_left(float height) {
    return (kRing + 3 - kRingAt - kHalfWay) * height / kHeight;
}

float lugs_right(float height) {
    return (kPinRight + 1) * height / kHeight;
}

void lug_row(Ui& ui, Rect rect, const std::vector<LugView>& views, float height) {
    if (views.empty()) {
        return;
    }
    const auto gaps = static_cast<float>(views.size()) - 1;
    // A pin half-way in must not touch its neighbour at the left. The first one may hang out a
    // little into the margin, so that lugs and words begin at the same place.
    constexpr float kFirst = 22;
    const float least = lugs_left(kHeight) + kFromMiddle + kWidth / 2 + 6;
    const float whole = kFirst + least * gaps + kPinRight + 1;
    height = std::min(height, kHeight * rect.w / whole);
    const float unit = height / kHeight;
    const float ends = (kFirst + kPinRight + 1) * unit;
    const float step = std::min((rect.w - ends) / std::max(1.0F, gaps), 3.6F * height);
    const float left = std::max(0.0F, (rect.w - ends - step * gaps) / 2);
    for (std::size_t i = 0; i < views.size(); ++i) {
        const float x = rect.x + left + kFirst * unit + step * static_cast<float>(i);
        lugs(ui, {x, rect.middle().y}, height, views[i].state);
    }
}

}  // namespace holdpin
