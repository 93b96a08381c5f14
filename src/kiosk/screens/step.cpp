// One step of a guide: warning first, then the action, its key point and its reason.
#include <algorithm>

#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {

namespace {

Stack words_of(const StepBody& body, Setting setting) {
    const TextSpec label{.type = Type::small_bold, .ink = Token::touch};
    const TextSpec words{.type = body_type(setting)};
    Stack stack;
    stack.add(body.action, {.type = action_type(setting)});
    stack.add(body.key_point.empty() ? "" : body.key_point_label, label, 20);
    stack.add(body.key_point, words, 2);
    stack.add(body.reason.empty() ? "" : body.reason_label, label, 18);
    stack.add(body.reason, words, 2);
    stack.add(body.note, {.type = aside_type(setting), .ink = Token::ink_2}, 14);
    return stack;
}

// In portrait the picture has what the words leave, within bounds.
float picture_part(const Ui& ui, Rect room, const StepBody& body) {
    const float words = warning_bands_height(ui, room.w, body.warnings, Setting::medium) +
                        words_of(body, Setting::medium).height(ui, room.w) + ui.sketch(110);
    return std::clamp(1 - words / room.h, 0.3F, 0.48F);
}

}  // namespace

std::optional<Action> draw(const StepBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    cut_progress(ui, room, body.progress);
    Halves both = halves(ui, room, picture_part(ui, room, body));
    const TextSpec small{.type = Type::small, .ink = Token::ink_2};
    Rect& below = ui.portrait() ? both.words : both.picture;
    const Rect footing = below.cut_bottom(ui.paragraph_height(below.w, body.footing, small),
                                          body.footing.empty() ? 0 : ui.sketch(12));
    picture_panel(ui, both.picture, body.picture);
    ui.fitted(footing, body.footing, small);

    const float gap = body.warnings.empty() ? 0 : ui.sketch(20);
    const float width = both.words.w;
    const Setting setting = setting_that_fits(both.words.h, [&](Setting tried) {
        return warning_bands_height(ui, width, body.warnings, tried) + gap +
               words_of(body, tried).height(ui, width);
    });
    Rect words = both.words;
    words.cut_top(warning_bands(ui, {words.x, words.y}, width, body.warnings, setting), gap);
    words_of(body, setting).draw(ui, words);
    return {};
}

}  // namespace holdpin::screens
