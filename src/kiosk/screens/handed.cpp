// The plate turned: who has the machine, until when, under which conditions.
#include <algorithm>
#include <cmath>

#include "kiosk/kit_extra.hpp"
#include "kiosk/plate.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {

namespace {

constexpr std::int64_t kPinMs = 300;   // the last pin slides out
constexpr std::int64_t kTurnMs = 300;  // then the plate turns

// How wide the plate is seen while it turns: it narrows to its edge and opens again.
float turn_of(float whole_way) {
    constexpr float kPinPart = static_cast<float>(kPinMs) / static_cast<float>(kPinMs + kTurnMs);
    const float way = (whole_way - kPinPart) / (1 - kPinPart);
    return way <= 0 ? 1 : std::abs(1 - 2 * way);
}

}  // namespace

std::optional<Action> draw(const HandedBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    std::optional<Action> action;
    if (!body.jobs.id.empty()) {
        // Beside the plate, whose words need its whole height; on a portrait screen below it.
        const float gap = ui.mm(kOperatorGapMm);
        Rect jobs = ui.portrait() ? room.cut_bottom(ui.mm(kOperatorTargetMm), gap)
                                  : room.cut_right(ui.sketch(230), gap);
        if (!ui.portrait()) jobs = jobs.cut_bottom(ui.mm(2 * kOperatorTargetMm));
        if (button(ui, jobs, body.jobs)) action = Action{body.jobs.id, {}};
    }
    const float width = std::min(room.w, ui.sketch(1060));
    const Rect rect{room.middle().x - width / 2, room.y, width, room.h};
    const float drawn = body.turn ? ui.motion(kPinMs) : 1;
    const float turned = body.turn ? ui.motion(kPinMs + kTurnMs) : 1;
    const auto begun = begin_turn(ui);
    Rect inside = plate_surface(ui, rect);
    inside.cut_top(handed_head(ui, inside, body.plate, drawn), ui.sketch(14));

    Stack words;
    words.add(body.name, {.type = Type::state, .align = Align::middle});
    for (const auto& line : body.lines) {
        words.add(line, {.type = Type::body, .align = Align::middle}, 6);
    }
    words.add(body.entry, {.type = Type::mono, .ink = Token::ink_2, .align = Align::middle}, 6);
    words.add(body.remark, {.type = Type::small, .ink = Token::ink_2, .align = Align::middle}, 6);

    // What the plate has to spare stands above and below the words.
    const float spare = inside.h - ui.sketch(64 + 14) - words.height(ui, inside.w);
    inside.cut_top(std::max(0.0F, spare * 0.4F));
    const Rect band = inside.cut_top(ui.sketch(64), ui.sketch(14));
    const float band_width = std::min(band.w, ui.sketch(440));
    const Rect panel{band.middle().x - band_width / 2, band.y, band_width, band.h};
    ui.fill(panel, Token::touch, ui.sketch(8));
    ui.fitted(panel.inset(ui.sketch(16), ui.sketch(4)), body.heading,
              {.type = Type::big, .ink = Token::on_touch, .align = Align::middle});
    words.draw(ui, inside.inset(ui.sketch(24), 0));
    end_turn(ui, begun, rect.middle().x, turn_of(turned));
    return action;
}

}  // namespace holdpin::screens
