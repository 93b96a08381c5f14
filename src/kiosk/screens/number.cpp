// A number, typed on a pad, or one mark of a gauge. The pad is at the right; in portrait at the
// bottom.
#include <algorithm>

#include "kiosk/keys.hpp"
#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {

namespace {

constexpr float kNumberFieldHeight = 96;    // sketch pixels
constexpr float kLeastPicture = 150;  // below this height a picture tells nothing

Stack question_of(const NumberBody& body, Setting setting) {
    Stack stack;
    stack.add(body.question, {.type = action_type(setting)});
    stack.add(body.look, {.type = body_type(setting), .ink = Token::ink_2}, 8);
    return stack;
}

Stack below_field(const NumberBody& body) {
    Stack stack;
    stack.add(body.last, {.type = Type::body, .ink = Token::ink_2});
    stack.add(body.remark, {.type = Type::body}, 8);
    return stack;
}

LastKey last_key(const NumberBody& body) {
    if (body.sign) return LastKey::sign;
    return body.decimal ? LastKey::point : LastKey::none;
}

// Question, field, what was there last. Returns the height used.
float words(Ui& ui, Rect room, const NumberBody& body) {
    const float top = room.y;
    const Stack below = below_field(body);
    const float field = body.marks.empty() ? kNumberFieldHeight + 10 : 0;
    const float below_height = below.height(ui, room.w) + ui.sketch(field + 16);
    const float most = std::max(0.0F, room.h - below_height);
    const Setting setting = setting_that_fits(
        most, [&](Setting tried) { return question_of(body, tried).height(ui, room.w); });
    room.cut_top(question_of(body, setting).draw(ui, {room.x, room.y, room.w, most}),
                 ui.sketch(16));
    if (body.marks.empty()) {
        number_field(ui, room.cut_top(ui.sketch(kNumberFieldHeight), ui.sketch(10)), body.unit);
    }
    room.cut_top(below.draw(ui, room));
    return room.y - top;
}

std::optional<Action> pad(Ui& ui, Rect room, const NumberBody& body) {
    if (body.marks.empty()) {
        number_pad(ui, room, last_key(body));
        return std::nullopt;
    }
    const std::string mark = mark_pad(ui, room, body);
    return mark.empty() ? std::nullopt : std::optional(Action{"mark:" + mark, {}});
}

std::optional<Action> landscape(Ui& ui, Rect room, const NumberBody& body) {
    const TextSpec small{.type = Type::small, .ink = Token::ink_2};
    const float most_pad = ui.mm(84);
    const Rect side = room.cut_right(std::min(pad_width(ui) * 1.04F, most_pad), ui.sketch(32));
    const float height = std::min(side.h, pad_height(ui) * 1.1F);
    auto action = pad(ui, {side.x, side.y, side.w, height}, body);
    cut_progress(ui, room, body.progress);
    const Rect footing = room.cut_bottom(ui.paragraph_height(room.w, body.footing, small),
                                         body.footing.empty() ? 0 : ui.sketch(12));
    ui.fitted(footing, body.footing, small);
    if (!body.picture.file.empty()) {
        picture_panel(ui, room.cut_left(room.w * 0.47F, ui.sketch(28)), body.picture);
    }
    room.w = ui.column(room.w, Type::body);
    words(ui, room, body);
    return action;
}

std::optional<Action> portrait(Ui& ui, Rect room, const NumberBody& body) {
    const TextSpec small{.type = Type::small, .ink = Token::ink_2};
    cut_progress(ui, room, body.progress);
    const Rect footing = room.cut_bottom(ui.paragraph_height(room.w, body.footing, small),
                                         body.footing.empty() ? 0 : ui.sketch(12));
    ui.fitted(footing, body.footing, small);
    auto action = pad(ui, room.cut_bottom(pad_height(ui), ui.sketch(16)), body);
    const float needed = question_of(body, Setting::small).height(ui, room.w) +
                         below_field(body).height(ui, room.w) + ui.sketch(kNumberFieldHeight + 26);
    const float left = room.h - needed - ui.sketch(16);
    if (!body.picture.file.empty() && left >= ui.sketch(kLeastPicture)) {
        picture_panel(ui, room.cut_top(left, ui.sketch(16)), body.picture);
    }
    words(ui, room, body);
    return action;
}

}  // namespace

std::optional<Action> draw(const NumberBody& body, const Page&, Ui& ui) {
    return ui.portrait() ? portrait(ui, ui.area(), body) : landscape(ui, ui.area(), body);
}

}  // namespace holdpin::screens
