// An emergency sheet: the first thing biggest, then the acts in order; beside them whom to call,
// what never to do and whom to tell what.
#include <algorithm>

#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {

namespace {

constexpr float kNumberRoom = 48;  // sketch pixels before the words of an act
constexpr float kMarkRoom = 34;    // before the words of a never
constexpr float kPadSheet = 20;

Type words_type(Setting setting) {
    return setting == Setting::large ? Type::lead : body_type(setting);
}

TextSpec words_spec(Setting setting) { return {.type = words_type(setting)}; }

Stack head_of(const SheetBody& body, Setting setting) {
    Stack stack;
    stack.add(body.title, {.type = Type::body_bold, .ink = Token::ink_2});
    stack.add(body.first, {.type = setting == Setting::large ? Type::state : Type::big}, 2);
    return stack;
}

TextSpec tell_spec(Setting setting) { return {.type = aside_type(setting)}; }

float act_gap(const Ui& ui, Setting setting) {
    return ui.sketch(setting == Setting::small ? 10 : 12);
}

float acts_height(const Ui& ui, float width, const SheetBody& body, Setting setting) {
    float sum = 0;
    for (const auto& act : body.act) {
        sum += ui.paragraph_height(width - ui.sketch(kNumberRoom), act, words_spec(setting)) +
               act_gap(ui, setting);
    }
    return sum;
}

void acts(Ui& ui, Rect room, const SheetBody& body, Setting setting) {
    const float number = ui.sketch(kNumberRoom);
    int count = 0;
    for (const auto& act : body.act) {
        const float wanted = ui.paragraph_height(room.w - number, act, words_spec(setting));
        Rect line = room.cut_top(wanted, act_gap(ui, setting));
        const Rect left = line.cut_left(number);
        const float half = ui.line_height(words_type(setting)) / 2;
        const Dot middle{left.x + ui.sketch(16), left.y + half};
        ui.fill({middle.x - ui.sketch(16), middle.y - ui.sketch(16), ui.sketch(32), ui.sketch(32)},
                Token::touch, ui.sketch(16));
        ui.text({middle.x, middle.y - ui.line_height(Type::small_bold) / 2},
                std::to_string(++count),
                {.type = Type::small_bold, .ink = Token::on_touch, .align = Align::middle});
        ui.fitted_top(line, act, words_spec(setting));
    }
}

// The number stands above all the rest at the side, on the ground of DANGER.
float call_height(const Ui& ui, const SheetBody& body) {
    return body.call.empty() ? 0 : ui.line_height(Type::big) + ui.sketch(18 + 14);
}

void call_band(Ui& ui, Rect& side, const SheetBody& body) {
    if (body.call.empty()) {
        return;
    }
    const Rect band = side.cut_top(call_height(ui, body) - ui.sketch(14), ui.sketch(14));
    ui.fill(band, Token::danger, ui.sketch(10));
    ui.fitted(band.inset(ui.sketch(kPadSheet), 0), body.call,
              {.type = Type::big, .ink = Token::white, .exempt = true});
}

float side_height(const Ui& ui, float width, const SheetBody& body, Setting setting) {
    const float room = width - 2 * ui.sketch(kPadSheet);
    float sum = ui.line_height(Type::body_bold) + 2 * ui.sketch(kPadSheet) + call_height(ui, body);
    for (const auto& never : body.never) {
        sum += ui.sketch(6) +
               ui.paragraph_height(room - ui.sketch(kMarkRoom), never, words_spec(setting));
    }
    return sum + ui.sketch(14) + 2 * ui.sketch(kPadSheet) + ui.line_height(Type::body_bold) +
           ui.sketch(6) + ui.paragraph_height(room, body.tell, tell_spec(setting));
}

// Panel of what never to do. Returns its height.
float never_panel(Ui& ui, Rect room, const SheetBody& body, Setting setting) {
    Rect inside = room.inset(ui.sketch(kPadSheet));
    float height = ui.line_height(Type::body_bold) + 2 * ui.sketch(kPadSheet);
    for (const auto& never : body.never) {
        height += ui.sketch(6) +
                  ui.paragraph_height(inside.w - ui.sketch(kMarkRoom), never, words_spec(setting));
    }
    ui.panel({room.x, room.y, room.w, height}, Token::plate, Token::held);
    ui.text({inside.x, inside.y}, body.never_label, {.type = Type::body_bold, .ink = Token::held});
    inside.cut_top(ui.line_height(Type::body_bold));
    for (const auto& never : body.never) {
        inside.cut_top(ui.sketch(6));
        Rect line = inside.cut_top(
            ui.paragraph_height(inside.w - ui.sketch(kMarkRoom), never, words_spec(setting)));
        const Rect left = line.cut_left(ui.sketch(kMarkRoom));
        cross(ui, {left.x + ui.sketch(10), left.y + ui.line_height(words_type(setting)) / 2},
              ui.sketch(18), Token::held);
        ui.fitted_top(line, never, words_spec(setting));
    }
    return height;
}

void tell_panel(Ui& ui, Rect room, const SheetBody& body, Setting setting) {
    const Rect inside = room.inset(ui.sketch(kPadSheet));
    const float height = ui.line_height(Type::body_bold) + ui.sketch(6) +
                         ui.paragraph_height(inside.w, body.tell, tell_spec(setting)) +
                         2 * ui.sketch(kPadSheet);
    ui.panel({room.x, room.y, room.w, std::min(height, room.h)}, Token::plate, Token::line);
    Stack words;
    words.add(body.tell_label, {.type = Type::body_bold, .ink = Token::touch});
    words.add(body.tell, tell_spec(setting), 6);
    words.draw(ui, inside);
}

}  // namespace

std::optional<Action> draw(const SheetBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    Rect side = room;
    if (ui.portrait()) {
        const float side_wanted = side_height(ui, room.w, body, Setting::medium);
        side = room.cut_bottom(std::min(side_wanted, room.h * 0.5F), ui.sketch(18));
    } else {
        side = room.cut_right(room.w * 0.385F, ui.sketch(32));
    }
    const float picture = body.drawing.empty() ? 0 : ui.sketch(110);
    Rect head = room;
    const Rect drawing = head.cut_left(picture, picture > 0 ? ui.sketch(20) : 0);
    const Setting setting = setting_that_fits(room.h, [&](Setting tried) {
        return std::max(head_of(body, tried).height(ui, head.w), picture) + ui.sketch(18) +
               acts_height(ui, room.w, body, tried);
    });
    head.h = std::max(picture, head_of(body, setting).height(ui, head.w));
    if (picture > 0) {
        ui.picture({drawing.x, drawing.y, picture, picture}, "tiles/" + body.drawing);
    }
    head_of(body, setting).draw(ui, head);
    room.cut_top(head.h, ui.sketch(18));
    acts(ui, room, body, setting);

    const Setting small = setting_that_fits(
        side.h, [&](Setting tried) { return side_height(ui, side.w, body, tried); });
    call_band(ui, side, body);
    side.cut_top(never_panel(ui, side, body, small), ui.sketch(14));
    tell_panel(ui, side, body, small);
    return {};
}

}  // namespace holdpin::screens
