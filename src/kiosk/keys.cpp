// PIN pad and number pad: twelve keys, and the fields that show what was typed.

#include "kiosk/keys.hpp"

#include <algorithm>

#include "kiosk/imgui_compat.hpp"
#include "kiosk/typing.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin {

namespace {

constexpr std::string_view kPadKeys = "123456789";
constexpr float kPadGapMm = kDeskGapMm;

// Draws the pad and gives each key that was tapped, and each letter typed, to `typed`.
template <typename Typed>
void pad(Ui& ui, Rect rect, LastKey last, const Typed& typed) {
    const float gap = ui.mm(kPadGapMm);
    const auto cell = [&](int index) { return grid_cell(rect, 3, 4, index, gap); };
    for (int i = 0; i < 9; ++i) {
        const std::string digit(1, kPadKeys[static_cast<std::size_t>(i)]);
        if (key(ui, cell(i), "key:" + digit, digit, kOperatorTargetMm)) {
            typed(digit[0]);
        }
    }
    if (last == LastKey::point && key(ui, cell(9), "key:.", ".", kOperatorTargetMm)) {
        typed('.');
    }
    if (last == LastKey::sign && key(ui, cell(9), "key:-", "\u2212", kOperatorTargetMm)) {
        typed('-');
    }
    if (key(ui, cell(10), "key:0", "0", kOperatorTargetMm)) {
        typed('0');
    }
    const bool back = icon_key(ui, cell(11), {.id = "key:back", .icon = backspace_icon});
    int backspaces = ui.take_backspaces() + (back ? 1 : 0);
    for (const char letter : ui.take_typed()) {
        typed(letter == ',' ? '.' : letter);
    }
    for (; backspaces > 0; --backspaces) {
        take_back(ui.state());
    }
}

}  // namespace

float pad_width(const Ui& ui) {
    return ui.mm(3 * kOperatorTargetMm + 2 * kPadGapMm);
}

float pad_height(const Ui& ui) {
    return ui.mm(4 * kOperatorTargetMm + 3 * kPadGapMm);
}

void pin_pad(Ui& ui, Rect rect, int most) {
    pad(ui, rect, LastKey::none, [&](char letter) { type_pin(ui.state(), letter, most); });
}

void number_pad(Ui& ui, Rect rect, LastKey last) {
    pad(ui, rect, last, [&](char letter) {
        if (letter == '-' && last == LastKey::sign) return turn_sign(ui.state());
        type_number(ui.state(), letter, last == LastKey::point);
    });
}

std::string mark_pad(Ui& ui, Rect rect, const NumberBody& body) {
    std::string touched;
    int index = 0;
    for (const std::string& mark : body.marks) {
        const Rect cell = grid_cell(rect, 3, 4, index++, ui.mm(kPadGapMm));
        const std::string label = mark + "\u00A0" + body.unit;
        if (key(ui, cell, "mark:" + mark, label, kOperatorTargetMm, Type::heading)) {
            touched = mark;
        }
        if (mark == body.start) {
            ui.edge(cell, Token::touch, ui.sketch(6), ui.sketch(10));
        }
    }
    return touched;
}

void pin_field(Ui& ui, Rect rect, int most) {
    ui.panel(rect);
    const auto count = static_cast<float>(std::max(1, most));
    const float step = std::min(ui.sketch(52), (rect.w - ui.sketch(24)) / count);
    const float first = rect.middle().x - step * (count - 1) / 2;
    for (int i = 0; i < most; ++i) {
        const Dot at{first + step * static_cast<float>(i), rect.middle().y};
        if (i < static_cast<int>(ui.state().typed.size())) {
            ui.disc(at, ui.sketch(12), Token::ink);
        } else {
            ui.ring(at, ui.sketch(11), Token::line, ui.sketch(2.4F));
        }
    }
}

void number_field(Ui& ui, Rect rect, const std::string& unit) {
    ui.panel(rect);
    Rect room = rect.inset(ui.sketch(20), ui.sketch(4));
    if (!unit.empty()) {
        const float width = ui.text_width(unit, Type::body) + ui.sketch(2);
        ui.fitted(room.cut_right(std::min(width, room.w / 2), ui.sketch(12)), unit,
                  {.type = Type::body, .ink = Token::ink_2});
    }
    const TextSpec spec{.type = Type::big, .align = Align::right};
    ui.fitted(room, ui.state().typed, spec);
    const float half = ui.line_height(Type::big) * 0.4F;
    const float x = room.right() + ui.sketch(4);
    ui.line({x, room.middle().y - half}, {x, room.middle().y + half}, Token::touch,
            ui.sketch(2.4F));
}

}  // namespace holdpin
