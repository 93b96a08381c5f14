// A machine and what holds it: the large plate, and a card for each hold with its reason and who
// lifts it.
#include <algorithm>

#include "kiosk/kit_extra.hpp"
#include "kiosk/plate.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

namespace {

constexpr float kCardPadding = 24;
constexpr float kPinHeight = 30;  // of the lugs before a title

LugState state_of(const HoldCard& hold) {
    return hold.self ? LugState::due : LugState::held;
}

// The pin that is read from three metres: red before orange before none.
LugState worst(const std::vector<HoldCard>& holds) {
    if (holds.empty()) {
        return LugState::open;
    }
    const bool held = std::any_of(holds.begin(), holds.end(),
                                  [](const HoldCard& hold) { return !hold.self; });
    return held ? LugState::held : LugState::due;
}

void card(Ui& ui, Rect rect, const HoldCard& hold) {
    ui.panel(rect);
    Rect room = rect.inset(ui.sketch(kCardPadding), ui.sketch(kCardPadding - 6));
    const Rect lift = room.cut_bottom(
        ui.paragraph_height(room.w, hold.lift, {.type = Type::small, .ink = Token::ink_2}),
        ui.sketch(8));
    const float height = ui.sketch(kPinHeight);
    const float pin_width = lugs_left(height) + lugs_right(height) + ui.sketch(14);
    const float title_width = room.w - pin_width;
    const float title_height = std::max(
        ui.sketch(44), ui.paragraph_height(title_width, hold.title, {.type = Type::heading}));
    Rect head = room.cut_top(title_height, ui.sketch(6));
    const Rect pin = head.cut_left(pin_width);
    lugs(ui, {pin.x + lugs_left(height), pin.y + ui.sketch(20)}, height, state_of(hold));
    ui.fitted(head, hold.title, {.type = Type::heading});
    ui.fitted_top(room, hold.reason, {.type = Type::body});
    ui.fitted(lift, hold.lift, {.type = Type::small, .ink = Token::ink_2});
}

// Heading with the one large pin at its right.
void head(Ui& ui, Rect rect, const HoldsBody& body) {
    const float height = std::min(ui.sketch(84), rect.h);
    Rect words = rect;
    const Rect pin = words.cut_right(ui.sketch(190));
    lugs(ui, {pin.right() - ui.sketch(90), pin.middle().y}, height, worst(body.holds));
    ui.fitted(words, body.heading, {.type = Type::heading});
}

void ready(Ui& ui, Rect room, const HoldsBody& body) {
    ui.panel(room);
    Rect inside = room.inset(ui.sketch(32));
    const Rect picture = inside.cut_top(inside.h * 0.5F, ui.sketch(16));
    lugs(ui, picture.middle(), std::min(ui.sketch(150), picture.h), LugState::open);
    Stack words;
    words.add(body.heading, {.type = Type::big, .align = Align::middle});
    words.add(body.remark, {.type = Type::body, .ink = Token::ink_2, .align = Align::middle}, 14);
    words.draw(ui, inside);
}

void cards(Ui& ui, Rect room, const std::vector<HoldCard>& holds) {
    const float gap = ui.sketch(18);
    const float height = (room.h - gap) / 2;
    const auto count = static_cast<float>(holds.size());
    Rect content = ui.begin_scroll(room, count * height + (count - 1) * gap);
    for (const auto& hold : holds) {
        card(ui, content.cut_top(height, gap), hold);
    }
    ui.end_scroll();
}

}  // namespace

std::optional<Action> draw(const HoldsBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    const float gutter = ui.sketch(36);
    const Rect plate = ui.portrait() ? room.cut_top(room.h * 0.5F, ui.sketch(18))
                                     : room.cut_left(room.w * 0.435F, gutter);
    holds_plate(ui, plate, body.plate);
    if (body.holds.empty()) {
        ready(ui, room, body);
        return {};
    }
    head(ui, room.cut_top(ui.sketch(88), ui.sketch(10)), body);
    cards(ui, room, body.holds);
    return {};
}

}  // namespace holdpin::screens
