// The tag of a machine out of service: signal words, plate and code in letters that are read at
// 1.5 m (1910.145(f)(4)(ii) asks for five feet), the reason, and where it is fixed.
#include <algorithm>

#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

std::optional<Action> draw(const TagBody& body, const Page&, Ui& ui) {
    const Rect room = ui.area();
    const float width = std::min(room.w, ui.sketch(1060));
    const Rect card{room.middle().x - width / 2, room.y, width, room.h};
    ui.panel(card, Token::plate, Token::danger);
    Rect inside = card.inset(ui.sketch(28), ui.sketch(20));
    const Rect band = inside.cut_top(ui.sketch(76), ui.sketch(16));
    ui.fill(band, Token::danger, ui.sketch(8));
    ui.fitted(band.inset(ui.sketch(16), ui.sketch(4)), body.heading,
              {.type = Type::state, .ink = Token::white, .align = Align::middle,
               .exempt = true});
    Stack words;
    words.add(body.plate, {.type = Type::plate, .align = Align::middle});
    words.add(body.code_label, {.type = Type::body, .ink = Token::ink_2, .align = Align::middle},
              4);
    words.add(body.code, {.type = Type::plate_huge, .align = Align::middle}, 4);
    words.add(body.reason, {.type = Type::heading, .align = Align::middle}, 12);
    for (const auto& line : body.lines) {
        words.add(line, {.type = Type::body, .align = Align::middle}, 6);
    }
    words.add(body.hint, {.type = Type::body, .ink = Token::ink_2, .align = Align::middle}, 12);
    inside.cut_top(std::max(0.0F, (inside.h - words.height(ui, inside.w)) / 2));
    words.draw(ui, inside);
    return {};
}

}  // namespace holdpin::screens
