// The tag of a machine out of service: signal words, plate and code in letters that are read at
// 1.5 m (1910.145(f)(4)(ii) asks for five feet), the reason, its QR code, and where it is fixed.
#include <algorithm>

#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {
namespace {

constexpr float kQrSide = 216;  // sketch pixels: 36 mm, read from a hand's length away

Stack words_of(const TagBody& body) {
    Stack words;
    words.add(body.plate, {.type = Type::plate, .align = Align::middle});
    words.add(body.code_label, {.type = Type::body, .ink = Token::ink_2, .align = Align::middle},
              4);
    words.add(body.code, {.type = Type::plate_huge, .align = Align::middle}, 4);
    words.add(body.reason, {.type = Type::heading, .align = Align::middle}, 12);
    for (const auto& line : body.lines) {
        words.add(line, {.type = Type::body, .align = Align::middle}, 6);
    }
    const bool said = !body.remark.empty();
    const Token ink = said && body.remark_is_held ? Token::held : Token::ink_2;
    words.add(said ? body.remark : body.hint,
              {.type = said ? Type::body_bold : Type::body, .ink = ink, .align = Align::middle},
              12);
    return words;
}

}  // namespace

std::optional<Action> draw(const TagBody& body, const Page&, Ui& ui) {
    const Rect room = ui.area();
    const float width = std::min(room.w, ui.sketch(1160));
    const Rect card{room.middle().x - width / 2, room.y, width, room.h};
    ui.panel(card, Token::plate, Token::danger);
    Rect inside = card.inset(ui.sketch(28), ui.sketch(20));
    const Rect band = inside.cut_top(ui.sketch(76), ui.sketch(16));
    ui.fill(band, Token::danger, ui.sketch(8));
    ui.fitted(band.inset(ui.sketch(16), ui.sketch(4)), body.heading,
              {.type = Type::state, .ink = Token::white, .align = Align::middle,
               .exempt = true});
    std::optional<Action> action;
    if (!body.qr.empty()) {
        const float side = ui.sketch(kQrSide);
        Rect beside = ui.portrait() ? inside.cut_bottom(side, ui.sketch(16))
                                    : inside.cut_right(ui.sketch(330), ui.sketch(24));
        const Rect code = ui.portrait() ? beside.cut_left(side, ui.sketch(24))
                                        : beside.cut_top(side, ui.mm(kOperatorGapMm));
        qr_square(ui, code, body.qr);
        const Rect print{beside.x, beside.y, beside.w,
                         std::min(beside.h, ui.mm(kOperatorTargetMm))};
        if (!body.print.id.empty() && button(ui, print, body.print)) {
            action = Action{body.print.id, {}};
        }
    }
    const Stack words = words_of(body);
    inside.cut_top(std::max(0.0F, (inside.h - words.height(ui, inside.w)) / 2));
    words.draw(ui, inside);
    return action;
}

}  // namespace holdpin::screens
