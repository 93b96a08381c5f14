// A text, typed on our own keyboard, which stands at the bottom.
#include <algorithm>

#include "kiosk/keys.hpp"
#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

namespace {

constexpr float kFieldHeight = 72;  // one line; grows with the room

}  // namespace

std::optional<Action> draw(const TextBody& body, const Page& page, Ui& ui) {
    Rect room = ui.area();
    const float height = keyboard_height(ui, room.w, body.codes);
    const Rect keys = room.cut_bottom(height, ui.sketch(14));
    keyboard(ui, keys,
             {.codes = body.codes,
              .most = static_cast<std::size_t>(std::max(body.most, 0)),
              .space_label = page.language == "es" ? "espacio" : "space"});
    Stack words;
    words.add(body.heading, {.type = Type::heading});
    words.add(body.remark, {.type = Type::small, .ink = Token::ink_2}, 4);
    const float width = ui.column(room.w, Type::heading);
    const float most = std::max(0.0F, room.h - ui.sketch(kFieldHeight + 10));
    room.cut_top(words.draw(ui, {room.x, room.y, width, most}), ui.sketch(10));
    room.h = std::min(room.h, ui.sketch(kFieldHeight) * 3);
    text_field(ui, room, body.hint);
    return {};
}

}  // namespace holdpin::screens
