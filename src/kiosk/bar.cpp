#include "kiosk/bar.hpp"

#include <algorithm>
#include <variant>

#include "kiosk/widgets.hpp"

namespace holdpin {

namespace {

constexpr float kStrip = 58;        // in the sketches
constexpr float kSecondLine = 32;   // more strip on a portrait screen
constexpr float kMargin = 24;
constexpr float kBarMargin = 12;    // above and below the buttons

const TextSpec kAtLeft{.type = Type::small, .ink = Token::ink_2};
const TextSpec kAtMiddle{.type = Type::body_bold, .align = Align::middle};
const TextSpec kAtRight{.type = Type::small, .ink = Token::ink_2, .align = Align::right};

// The words "example data" in an edge of their own, so that nobody takes them for a place.
void example_mark(Ui& ui, Rect room, const std::string& words) {
    const float height = ui.line_height(Type::small) + ui.sketch(4);
    const Rect mark{room.x, room.middle().y - height / 2, room.w, height};
    ui.edge(mark, Token::ink_2, ui.sketch(1.6F), ui.sketch(6));
    ui.fitted(mark, words, {.type = Type::small, .align = Align::middle});
}

float example_width(const Ui& ui, const Page& page) {
    return page.example.empty() ? 0
                                : ui.text_width(page.example, Type::small) + ui.sketch(20);
}

void strip_in_one_line(const Page& page, Ui& ui, Rect rect) {
    const float gap = ui.sketch(20);
    const float middle = std::min(ui.text_width(page.middle, Type::body_bold) + ui.sketch(2),
                                  rect.w * 0.45F);
    const float mark = example_width(ui, page);
    const float wanted = ui.text_width(page.left, Type::small) + ui.sketch(14);
    // Words that need more than their half move the middle over, as far as the right end lets them.
    const float balanced = (rect.w - middle) / 2 - gap;
    const float at_right = ui.text_width(page.right, Type::small) + ui.sketch(2);
    const float most = std::max(balanced, rect.w - middle - 2 * gap - at_right);
    Rect left = rect;
    left.w = std::clamp(wanted + mark, balanced, most);
    const float middle_x = rect.x + left.w + gap;
    const Rect right{middle_x + middle + gap, rect.y, rect.right() - middle_x - middle - gap,
                     rect.h};
    if (mark > 0) {
        const float words = std::clamp(wanted, 0.0F, std::max(0.0F, left.w - mark));
        example_mark(ui, {left.x + words, left.y, mark, left.h}, page.example);
        left.w = std::max(0.0F, words - ui.sketch(12));
    }
    ui.fitted(left, page.left, kAtLeft);
    ui.fitted({middle_x, rect.y, middle, rect.h}, page.middle, kAtMiddle);
    ui.fitted(right, page.right, kAtRight);
}

void strip_in_two_lines(const Page& page, Ui& ui, Rect rect) {
    rect = rect.inset(0, ui.sketch(6));
    Rect upper = rect.cut_top(rect.h / 2);
    const float right = std::min(ui.text_width(page.right, Type::small) + ui.sketch(2),
                                 upper.w * 0.5F);
    ui.fitted(upper.cut_right(right, ui.sketch(16)), page.right, kAtRight);
    ui.fitted(upper, page.left, kAtLeft);
    const float mark = example_width(ui, page);
    if (mark > 0) {
        example_mark(ui, rect.cut_right(mark, ui.sketch(16)), page.example);
    }
    TextSpec middle = kAtMiddle;
    middle.align = Align::left;
    ui.fitted(rect, page.middle, middle);
}

}  // namespace

float strip_height(const Ui& ui) {
    return ui.sketch(ui.portrait() ? kStrip + kSecondLine : kStrip);
}

float bar_height(const Ui& ui) {
    return ui.mm(kOperatorTargetMm) + ui.sketch(2 * kBarMargin);
}

void draw_silent_strip(const Page& page, Ui& ui, Rect rect) {
    ui.fill(rect, Token::danger);
    ui.fitted(rect.inset(ui.sketch(kMargin), 0), page.silent,
              {.type = Type::body_bold, .ink = Token::white, .align = Align::middle});
}

void draw_strip(const Page& page, Ui& ui, Rect rect) {
    const bool counting = !page.countdown.empty();
    ui.fill(rect, counting ? Token::touch : Token::strip);
    ui.hairline({rect.x, rect.bottom()}, {rect.right(), rect.bottom()});
    const Rect room = rect.inset(ui.sketch(kMargin), 0);
    if (counting) {
        ui.fitted(room, page.countdown,
                  {.type = Type::body_bold, .ink = Token::on_touch, .align = Align::middle});
    } else if (ui.portrait()) {
        strip_in_two_lines(page, ui, room);
    } else {
        strip_in_one_line(page, ui, room);
    }
}

namespace {

struct BarRooms {
    Rect back;
    Rect help;
    Rect main;
};

// The places do not depend on which buttons a page has: the bar never moves.
BarRooms bar_rooms(const Ui& ui, Rect rect) {
    Rect room = rect.inset(ui.sketch(kMargin), ui.sketch(kBarMargin));
    const float gap = ui.mm(kOperatorGapMm);
    BarRooms rooms;
    const float main = ui.mm(kMainActionMm + (ui.portrait() ? 0.5F : 4));
    rooms.main = room.cut_right(std::max(main, ui.portrait() ? 0 : rect.w * 0.29F), gap);
    if (ui.portrait()) {
        rooms.back = room.cut_left(room.w * 0.37F, gap);
        rooms.help = room;
        return rooms;
    }
    rooms.back = room.cut_left(rect.w * 0.2F, gap);
    const float width = std::min(room.w, rect.w * 0.33F);
    const float middle = rect.middle().x - width / 2;
    rooms.help = {std::clamp(middle, room.x, room.right() - width), room.y, width, room.h};
    return rooms;
}

}  // namespace

std::optional<Action> draw_bar(const Page& page, Ui& ui, Rect rect) {
    ui.fill(rect, Token::strip);
    ui.hairline({rect.x, rect.y}, {rect.right(), rect.y});
    const BarRooms rooms = bar_rooms(ui, rect);
    std::optional<Action> action;
    const auto draw = [&](const Button& button, Rect room, const BarLook& look) {
        if (!button.id.empty() && bar_button(ui, room, button, look)) {
            action = Action{button.id, {}};
        }
    };
    // While nobody is signed on the large tile is the one main action, and nothing lies behind.
    const auto* floor = std::get_if<FloorBody>(&page.body);
    const bool large = floor != nullptr && !floor->large.id.empty();
    // Nor does the other language.
    const bool leads_back = !large && page.back.id != "language";
    draw(page.back, rooms.back, {ButtonLook::plain, leads_back ? Icon::back : Icon::none, false});
    draw(page.help, rooms.help, {ButtonLook::plain, Icon::hand, false});
    draw(page.main, rooms.main,
         {large ? ButtonLook::plain : ButtonLook::primary, Icon::next, true});
    return action;
}

Rect draw_notice(Ui& ui, Rect body, const std::string& notice) {
    if (notice.empty()) {
        return {};
    }
    const TextSpec spec{.type = Type::body_bold, .over = true};
    const float pad = ui.sketch(18);
    const float height = ui.paragraph_height(body.w - 2 * pad, notice, spec) + ui.sketch(20);
    const Rect band{body.x, body.bottom() - height, body.w, height};
    ui.panel(band, Token::plate, Token::ink);
    ui.fitted(band.inset(pad, 0), notice, spec);
    return band;
}

}  // namespace holdpin
