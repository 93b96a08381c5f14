// Something to read: a result, a refusal, a failure.
#include "kiosk/kit_extra.hpp"
#include "kiosk/plate.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

std::optional<Action> draw(const MessageBody& body, const Page&, Ui& ui) {
    const Rect room = ui.area();
    ui.panel(room);
    Rect inside = room.inset(ui.sketch(48), ui.sketch(36));
    if (body.mark != LugState::unasked) {
        const Rect mark = ui.portrait() ? inside.cut_top(ui.sketch(220), ui.sketch(24))
                                        : inside.cut_left(ui.sketch(300), ui.sketch(24));
        lugs(ui, mark.middle(), ui.sketch(140), body.mark);
    }
    inside.w = ui.column(inside.w, Type::body_bold);
    const auto stack_of = [&](Setting setting) {
        Stack stack;
        stack.add(body.heading, {.type = action_type(setting)});
        for (const auto& line : body.lines) {
            stack.add(line, {.type = body_type(setting)}, 14);
        }
        return stack;
    };
    const Setting setting = setting_that_fits(
        inside.h, [&](Setting tried) { return stack_of(tried).height(ui, inside.w); });
    const Stack stack = stack_of(setting);
    if (!ui.portrait()) {
        // Centred in height, beside the mark.
        inside.cut_top((inside.h - stack.height(ui, inside.w)) / 2);
    }
    stack.draw(ui, inside);
    return {};
}

}  // namespace holdpin::screens
