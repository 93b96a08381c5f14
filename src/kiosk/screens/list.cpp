// Rows to choose from or to read.
#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {

namespace {

struct Spacing {
    float min_mm;
    float gap;
};

std::vector<ScrollRow> rows_in(const Ui& ui, Rect room, const std::vector<Row>& rows,
                               Spacing spacing) {
    std::vector<ScrollRow> places;
    float top = 0;
    for (const Row& one : rows) {
        const float height = row_height(ui, room.w, one, spacing.min_mm);
        places.push_back({top, height});
        top += height + spacing.gap;
    }
    return places;
}

}  // namespace

std::optional<Action> draw(const ListBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    const float min_mm = body.desk ? kDeskTargetMm : kOperatorTargetMm;
    const float gap = ui.mm(body.desk ? kDeskGapMm : kOperatorGapMm);
    Stack words;
    words.add(body.heading, {.type = body.desk ? Type::heading : Type::big});
    words.add(body.remark, {.type = Type::body, .ink = Token::ink_2}, 4);
    room.cut_top(words.draw(ui, {room.x, room.y, room.w, room.h * 0.4F}),
                 words.is_empty() ? 0 : ui.sketch(14));

    const Rect content = ui.begin_scroll(
        room, [&](Rect left) { return rows_in(ui, left, body.rows, {min_mm, gap}); });
    const auto places = rows_in(ui, content, body.rows, {min_mm, gap});
    std::optional<Action> action;
    for (std::size_t i = 0; i < body.rows.size(); ++i) {
        const Rect place{content.x, content.y + places[i].top, content.w, places[i].height};
        if (row(ui, place, body.rows[i], min_mm)) {
            action = Action{body.rows[i].id, {}};
        }
    }
    ui.end_scroll();
    return action;
}

}  // namespace holdpin::screens
