// A text, typed on our own keyboard, which stands at the bottom.
#include <algorithm>

#include "kiosk/keys.hpp"
#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

namespace {

constexpr float kTextFieldHeight = 72;  // one line; grows with the room

TextSpec remark_spec(const TextBody& body) {
    if (body.remark_is_held) return {.type = Type::small_bold, .ink = Token::held};
    return {.type = Type::small, .ink = Token::ink_2};
}

void words_above(Ui& ui, Rect& room, const TextBody& body) {
    Stack words;
    words.add(body.heading, {.type = Type::heading});
    words.add(body.remark, remark_spec(body), 4);
    const float most = std::max(0.0F, room.h - ui.sketch(kTextFieldHeight + 10));
    room.cut_top(words.draw(ui, {room.x, room.y, room.w, most}), ui.sketch(10));
}

// A keyboard leaves little height: the remark stands beside the heading, so that the field can show
// all that may be typed.
void words_beside(Ui& ui, Rect& room, const TextBody& body) {
    const float half = (room.w - ui.sketch(24)) / 2;
    const float heading_width = body.remark.empty() ? room.w : half;
    const float height =
        std::max(ui.paragraph_height(heading_width, body.heading, {.type = Type::heading}),
                 ui.paragraph_height(half, body.remark, remark_spec(body)));
    const float most = std::max(0.0F, room.h - ui.sketch(kTextFieldHeight + 6));
    Rect row = room.cut_top(std::min(height, most), ui.sketch(6));
    ui.fitted(row.cut_left(heading_width, ui.sketch(24)), body.heading, {.type = Type::heading});
    ui.fitted(row, body.remark, remark_spec(body));
}

}  // namespace

std::optional<Action> draw(const TextBody& body, const Page& page, Ui& ui) {
    Rect room = ui.area();
    const float height = keyboard_height(ui, room.w, body.codes);
    const Rect keys = room.cut_bottom(height, ui.sketch(12));
    keyboard(ui, keys,
             {.codes = body.codes,
              .most = static_cast<std::size_t>(std::max(body.most, 0)),
              .space_label = page.language == "es" ? "espacio" : "space"});
    ui.portrait() ? words_above(ui, room, body) : words_beside(ui, room, body);
    room.h = std::min(room.h, ui.sketch(kTextFieldHeight) * 3);
    text_field(ui, room, body.hint);
    return {};
}

}  // namespace holdpin::screens
