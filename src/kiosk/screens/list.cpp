// Rows to choose from or to read.
#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {

std::optional<Action> draw(const ListBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    const float min_mm = body.desk ? kDeskTargetMm : kOperatorTargetMm;
    const float gap = ui.mm(body.desk ? kDeskGapMm : kOperatorGapMm);
    Stack words;
    words.add(body.heading, {.type = body.desk ? Type::heading : Type::big});
    words.add(body.remark, {.type = Type::body, .ink = Token::ink_2}, 4);
    room.cut_top(words.draw(ui, {room.x, room.y, room.w, room.h * 0.4F}),
                 words.is_empty() ? 0 : ui.sketch(14));

    // The page buttons of a list that does not fit take their width from the rows.
    const float narrow = room.w - ui.mm(min_mm + kDeskGapMm);
    float height = 0;
    for (const auto& one : body.rows) {
        height += row_height(ui, narrow, one, min_mm) + gap;
    }
    Rect content = ui.begin_scroll(room, body.rows.empty() ? 0 : height - gap, min_mm);
    std::optional<Action> action;
    for (const auto& one : body.rows) {
        const Rect place = content.cut_top(row_height(ui, narrow, one, min_mm), gap);
        if (row(ui, place, one, min_mm)) {
            action = Action{one.id, {}};
        }
    }
    ui.end_scroll();
    return action;
}

}  // namespace holdpin::screens
