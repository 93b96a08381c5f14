// One page of a document, as wide as the screen lets it be, so that its words can be read; what is
// below is scrolled to.
#include <algorithm>

#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

std::optional<Action> draw(const PaperBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    const TextSpec remark{.type = Type::body};
    if (!body.remark.empty()) {
        const float height = ui.paragraph_height(room.w, body.remark, remark);
        ui.fitted(room.cut_top(height, ui.sketch(12)), body.remark, remark);
    }
    if (body.width <= 0 || body.height <= 0) return {};
    const float shape = static_cast<float>(body.height) / static_cast<float>(body.width);
    const Rect sheet = ui.begin_scroll(room, [&](Rect left) {
        return std::vector<ScrollRow>{{.top = 0, .height = left.w * shape, .things = 0}};
    });
    ui.fill(sheet, Token::plate);
    ui.paper(sheet, body.png);
    ui.end_scroll();
    return {};
}

}  // namespace holdpin::screens
