// A PIN under a stated meaning: who signs, what the signature says, and the pad.
#include <algorithm>

#include "kiosk/keys.hpp"
#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

namespace {

constexpr float kPinFieldHeight = 96;

Stack words_of(const PinBody& body, Setting setting) {
    Stack stack;
    stack.add(body.heading, {.type = action_type(setting)});
    stack.add(body.name, {.type = body_bold_type(setting)}, 14);
    stack.add(body.statement, {.type = body_type(setting), .ink = Token::ink_2}, 8);
    return stack;
}

void words(Ui& ui, Rect room, const PinBody& body) {
    const float remark = remark_band_height(ui, room.w, body.remark);
    const float below = ui.sketch(kPinFieldHeight + 24) + (remark > 0 ? remark + ui.sketch(16) : 0);
    const float most = std::max(0.0F, room.h - below);
    const Setting setting = setting_that_fits(
        most, [&](Setting tried) { return words_of(body, tried).height(ui, room.w); });
    room.cut_top(words_of(body, setting).draw(ui, {room.x, room.y, room.w, most}), ui.sketch(24));
    pin_field(ui, room.cut_top(ui.sketch(kPinFieldHeight), ui.sketch(16)), body.digits);
    remark_band(ui, room.cut_top(remark), body.remark, body.remark_is_held);
}

}  // namespace

std::optional<Action> draw(const PinBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    if (ui.portrait()) {
        pin_pad(ui, room.cut_bottom(pad_height(ui), ui.sketch(24)), body.digits);
    } else {
        const Rect side = room.cut_right(std::min(room.w * 0.42F, ui.mm(92)), ui.sketch(48));
        pin_pad(ui, {side.x, side.y, side.w, std::min(side.h, pad_height(ui) * 1.1F)}, body.digits);
    }
    room.w = ui.column(room.w, Type::body);
    words(ui, room, body);
    return {};
}

}  // namespace holdpin::screens
