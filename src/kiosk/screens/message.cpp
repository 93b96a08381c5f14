// Something to read: a result, a refusal, a failure.
#include "kiosk/kit_extra.hpp"
#include "kiosk/plate.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

namespace {

// Larger than elsewhere: a message is the only thing on its page.
struct MessageSize {
    Type heading;
    Type line;
    float gap;
};
constexpr MessageSize kSizes[] = {{Type::state, Type::lead, 22},
                                  {Type::big, Type::lead, 18},
                                  {Type::big, Type::body, 14},
                                  {Type::heading, Type::body, 14},
                                  {Type::heading, Type::small, 10}};

Stack words_of(const MessageBody& body, const MessageSize& size) {
    Stack stack;
    stack.add(body.heading, {.type = size.heading});
    for (const auto& line : body.lines) {
        stack.add(line, {.type = size.line}, size.gap);
    }
    return stack;
}

}  // namespace

std::optional<Action> draw(const MessageBody& body, const Page&, Ui& ui) {
    const Rect room = ui.area();
    ui.panel(room);
    Rect inside = room.inset(ui.sketch(48), ui.sketch(36));
    const bool marked = body.mark != LugState::unasked;
    const float tall = ui.sketch(marked && ui.portrait() ? 220 : 0);
    Rect mark;
    if (marked && !ui.portrait()) {
        mark = inside.cut_left(ui.sketch(300), ui.sketch(24));
    }
    inside.w = ui.column(inside.w, Type::lead);
    Stack words;
    for (const MessageSize& size : kSizes) {
        words = words_of(body, size);
        if (words.height(ui, inside.w) + tall <= inside.h) break;
    }
    // Centred in height: beside the mark, or with the mark above.
    inside.cut_top(std::max(0.0F, (inside.h - tall - words.height(ui, inside.w)) / 2));
    if (marked && ui.portrait()) {
        mark = inside.cut_top(tall);
        mark.w = ui.sketch(260);
    }
    if (marked) {
        lugs(ui, mark.middle(), ui.sketch(140), body.mark);
    }
    words.draw(ui, inside);
    return {};
}

}  // namespace holdpin::screens
