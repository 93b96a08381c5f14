#include "kiosk/widgets.hpp"

#include <algorithm>

#include "kiosk/plate.hpp"

namespace holdpin {

namespace {

struct ButtonSurface {
    Token ground;
    Token edge;
    Token ink;
    Token ink_2;
};

Target target_of(const std::string& id, const std::string& label, float min_mm) {
    Target target;
    target.id = id;
    target.label = label;
    target.min_mm = min_mm;
    return target;
}

struct Line {
    const std::string& text;
    TextSpec spec;
};

// Label over second line, together in the middle of the room's height.
void label_and_second(Ui& ui, Rect room, const Line& label, const Line& second) {
    if (second.text.empty()) {
        ui.fitted(room, label.text, label.spec);
        return;
    }
    const float wanted = ui.paragraph_height(room.w, label.text, label.spec);
    const float below = std::min(ui.paragraph_height(room.w, second.text, second.spec),
                                 std::max(room.h * 0.5F, room.h - wanted));
    const float above = std::min(wanted, room.h - below);
    room.cut_top((room.h - above - below) / 2);
    ui.fitted(room.cut_top(above), label.text, label.spec);
    ui.fitted_top(room, second.text, second.spec);
}

}  // namespace

// ---- buttons --------------------------------------------------------------------------------

namespace {

ButtonSurface button_surface(const Button& button, ButtonLook look, bool down) {
    if (!button.enabled) {
        return {Token::grey, Token::grey, Token::ink_grey, Token::ink_grey};
    }
    if (look == ButtonLook::primary) {
        return {Token::touch, down ? Token::ink : Token::touch, Token::on_touch, Token::on_touch};
    }
    return {down ? Token::tile_down : Token::plate, Token::ink, Token::ink, Token::ink};
}

Tap button_base(Ui& ui, Rect rect, const Button& button, Target target, ButtonLook look) {
    target.enabled = button.enabled;
    target.why_not = button.why_not;
    const Tap tap = ui.target(rect, target);
    const ButtonSurface surface = button_surface(button, look, tap.down);
    ui.fill(rect, surface.ground, ui.sketch(10));
    ui.edge(rect, surface.edge, ui.sketch(tap.down ? 5 : 2.2F), ui.sketch(10));
    return tap;
}

void draw_icon(Ui& ui, Icon icon, Rect room, const ButtonSurface& surface) {
    const float size = std::min(room.w, room.h);
    switch (icon) {
        case Icon::none: return;
        case Icon::back: arrow_left(ui, room.middle(), size * 0.8F, surface.ink); return;
        case Icon::next: arrow_right(ui, room.middle(), size * 0.8F, surface.ink); return;
        case Icon::hand: raised_hand(ui, room.middle(), size, surface.ink, surface.ground); return;
    }
}

// Words in the middle when there is nothing else in the button.
void centred_words(Ui& ui, Rect room, const Button& button, const ButtonSurface& surface) {
    const TextSpec first{.type = Type::body_bold, .ink = surface.ink, .align = Align::middle};
    const TextSpec under{.type = Type::small, .ink = surface.ink_2, .align = Align::middle};
    if (button.second.empty()) {
        ui.fitted(room, button.label, first);
        return;
    }
    const float below = ui.paragraph_height(room.w, button.second, under);
    const float most = std::max(0.0F, room.h - below);
    const float above = std::min(ui.paragraph_height(room.w, button.label, first), most);
    room.cut_top((room.h - above - below) / 2);
    ui.fitted(room.cut_top(above), button.label, first);
    ui.fitted_top(room, button.second, under);
}

}  // namespace

bool button(Ui& ui, Rect rect, const Button& button, ButtonLook look, float min_mm) {
    const Target target = target_of(button.id, button.label, min_mm);
    const Tap tap = button_base(ui, rect, button, target, look);
    const ButtonSurface surface = button_surface(button, look, tap.down);
    const float above = std::min(ui.sketch(12), rect.h * 0.08F);
    centred_words(ui, rect.inset(ui.sketch(16), above), button, surface);
    return tap.tapped;
}

bool bar_button(Ui& ui, Rect rect, const Button& button, const BarLook& look) {
    Target target = target_of(button.id, button.label, kOperatorTargetMm);
    target.main = look.main;
    const Tap tap = button_base(ui, rect, button, target, look.look);
    const ButtonSurface surface = button_surface(button, look.look, tap.down);
    const bool narrow = rect.w < ui.mm(38);
    const bool tight = !narrow && rect.w < ui.mm(kMainActionMm + 2);
    Rect room = rect.inset(ui.sketch(narrow ? 8 : tight ? 16 : 28), ui.sketch(8));
    const float size = ui.sketch(look.icon == Icon::hand ? 58 : tight ? 44 : 56);
    if (look.icon == Icon::none) {
        centred_words(ui, room, button, surface);
    } else if (narrow) {
        draw_icon(ui, look.icon, room.cut_top(ui.sketch(40), ui.sketch(4)), surface);
        centred_words(ui, room, button, surface);
    } else {
        const Rect icon = look.icon == Icon::next ? room.cut_right(size, ui.sketch(12))
                                                  : room.cut_left(size, ui.sketch(14));
        draw_icon(ui, look.icon, icon, surface);
        label_and_second(ui, room, {button.label, {.type = Type::body_bold, .ink = surface.ink}},
                         {button.second, {.type = Type::small, .ink = surface.ink_2}});
    }
    return tap.tapped;
}

bool key(Ui& ui, Rect rect, const std::string& id, const std::string& label, float min_mm,
         Type type) {
    const Tap tap = ui.target(rect, target_of(id, label, min_mm));
    ui.panel(rect, tap.down ? Token::tile_down : Token::plate, Token::ink);
    ui.fitted(rect.inset(ui.sketch(4), 0), label, {.type = type, .align = Align::middle});
    return tap.tapped;
}

bool icon_key(Ui& ui, Rect rect, const IconKey& key) {
    const Tap tap = ui.target(rect, target_of(key.id, key.id, key.min_mm));
    ui.panel(rect, tap.down || key.on ? Token::tile_down : Token::plate, Token::ink);
    key.icon(ui, rect.middle(), rect.h * 0.38F, Token::ink);
    return tap.tapped;
}

// ---- rows -----------------------------------------------------------------------------------

namespace {

struct RowRooms {
    Rect mark;
    Rect words;
    Rect word;
    Rect end;  // tick
};

RowRooms rooms_of_row(const Ui& ui, Rect rect, const Row& row) {
    RowRooms rooms;
    Rect rest = rect.inset(ui.sketch(20), ui.sketch(6));
    if (row.mark != LugState::unasked) {
        rooms.mark = rest.cut_left(ui.sketch(84), ui.sketch(14));
    }
    if (row.chosen) {
        rooms.end = rest.cut_right(ui.sketch(34), ui.sketch(12));
    }
    if (!row.word.empty()) {
        const float wanted = ui.text_width(row.word, Type::small_bold) + ui.sketch(2);
        rooms.word = rest.cut_right(std::min(wanted, rest.w * 0.45F), ui.sketch(14));
    }
    rooms.words = rest;
    return rooms;
}

}  // namespace

// Where an operator has to touch it, a row is read at arm's length.
static Type row_label(const Row& row, float min_mm) {
    return !row.id.empty() && min_mm >= kOperatorTargetMm ? Type::heading : Type::body_bold;
}

static Type row_second(const Row& row) { return row.to_read ? Type::body : Type::small; }

float row_height(const Ui& ui, float width, const Row& row, float min_mm) {
    const RowRooms rooms = rooms_of_row(ui, {0, 0, width, 1000}, row);
    const TextSpec first{.type = row_label(row, min_mm)};
    const float label = ui.paragraph_height(rooms.words.w, row.label, first);
    const float second = ui.paragraph_height(rooms.words.w, row.second, {.type = row_second(row)});
    const float word = ui.paragraph_height(rooms.word.w, row.word, {.type = Type::small_bold});
    const float least = row.id.empty() ? 0 : ui.mm(min_mm);
    return std::max(least, std::max(label + second, word) + ui.sketch(20));
}

bool row(Ui& ui, Rect rect, const Row& row, float min_mm) {
    Tap tap;
    ButtonSurface surface{Token::plate, Token::line, Token::ink, Token::ink_2};
    if (!row.id.empty()) {
        Target target = target_of(row.id, row.label, min_mm);
        target.enabled = row.enabled;
        target.why_not = row.why_not;
        tap = ui.target(rect, target);
        const Token ground = tap.down ? Token::tile_down : Token::tile;
        surface = row.enabled
                      ? ButtonSurface{ground, Token::touch, Token::ink, Token::ink}
                      : ButtonSurface{Token::grey, Token::line, Token::ink_grey, Token::ink_grey};
    }
    ui.fill(rect, surface.ground, ui.sketch(8));
    ui.edge(rect, surface.edge, ui.sketch(row.id.empty() ? 1.4F : 2.4F), ui.sketch(8));
    const RowRooms rooms = rooms_of_row(ui, rect, row);
    if (row.mark != LugState::unasked) {
        const float height = std::min(ui.sketch(34), rooms.mark.h * 0.7F);
        const Dot middle{rooms.mark.x + lugs_left(height), rooms.mark.middle().y};
        lugs(ui, middle, height, row.mark);
    }
    if (row.chosen) {
        tick(ui, rooms.end.middle(), ui.sketch(28), surface.ink);
    }
    ui.fitted(rooms.word, row.word,
              {.type = Type::small_bold, .ink = surface.ink, .align = Align::right});
    const Token ink = row.to_read ? surface.ink : surface.ink_2;
    label_and_second(ui, rooms.words,
                     {row.label, {.type = row_label(row, min_mm), .ink = surface.ink}},
                     {row.second, {.type = row_second(row), .ink = ink}});
    return tap.tapped;
}

}  // namespace holdpin
