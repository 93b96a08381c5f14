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

// At a desk rows may be small, but where few of them stand they are as large as for a glove.
Spacing spacing_for(const Ui& ui, Rect room, const ListBody& body) {
    const Spacing large{kOperatorTargetMm, ui.mm(kOperatorGapMm)};
    if (!body.desk) return large;
    const float gap = ui.mm(kDeskGapMm);
    for (const Spacing tried : {large, Spacing{17, gap}, Spacing{14.5F, gap}}) {
        const auto places = rows_in(ui, room, body.rows, tried);
        if (places.empty() || places.back().bottom() <= room.h) return tried;
    }
    return {kDeskTargetMm, gap};
}

}  // namespace

std::optional<Action> draw(const ListBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    Stack words;
    words.add(body.heading, {.type = body.desk ? Type::heading : Type::big});
    words.add(body.remark, {.type = Type::body, .ink = Token::ink_2}, 4);
    room.cut_top(words.draw(ui, {room.x, room.y, room.w, room.h * 0.4F}),
                 words.is_empty() ? 0 : ui.sketch(14));

    const Spacing spacing = spacing_for(ui, room, body);
    const Rect content = ui.begin_scroll(
        room, [&](Rect left) { return rows_in(ui, left, body.rows, spacing); });
    const auto places = rows_in(ui, content, body.rows, spacing);
    std::optional<Action> action;
    for (std::size_t i = 0; i < body.rows.size(); ++i) {
        const Rect place{content.x, content.y + places[i].top, content.w, places[i].height};
        if (row(ui, place, body.rows[i], spacing.min_mm)) {
            action = Action{body.rows[i].id, {}};
        }
    }
    ui.end_scroll();
    return action;
}

}  // namespace holdpin::screens
