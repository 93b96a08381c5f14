// Work that goes on: what it is, how far it is, what to know meanwhile.
#include <algorithm>

#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

std::optional<Action> draw(const ProgressBody& body, const Page&, Ui& ui) {
    const Rect room = ui.area();
    ui.panel(room);
    Rect inside = room.inset(ui.sketch(48), ui.sketch(36));
    Stack head;
    head.add(body.heading, {.type = Type::heading});
    Stack foot;
    for (const auto& line : body.lines) foot.add(line, {.type = Type::body}, 14);

    const float thick = ui.sketch(44);
    const float gap = ui.sketch(28);
    const float words = ui.column(inside.w, Type::body);
    const float height = head.height(ui, inside.w) + thick + 2 * gap + foot.height(ui, words);
    inside.cut_top(std::max(0.0F, (inside.h - height) / 2));
    inside.cut_top(head.draw(ui, inside), gap);
    Rect bar = inside.cut_top(thick, gap);
    const Rect word = bar.cut_right(ui.sketch(110), ui.sketch(20));
    ui.fitted(word, body.word, {.type = Type::body_bold});
    const auto part = static_cast<float>(std::clamp(body.percent, 0, 100)) / 100;
    ui.fill({bar.x, bar.y, bar.w * part, bar.h}, Token::touch);
    ui.edge(bar, Token::ink, ui.sketch(2.4F));
    inside.w = words;
    foot.draw(ui, inside);
    return {};
}

}  // namespace holdpin::screens
