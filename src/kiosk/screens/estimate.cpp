// An estimate: the curve, what it says in words, and dials with large keys for less and more. The
// words stand below the dials where there is room for them, else below the curve; on an upright
// display beside the dials.
#include <algorithm>

#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {

namespace {

constexpr float kDialsWide = 470;     // sketch pixels
constexpr float kDialsUpright = 436;  // on a display that stands upright
constexpr float kGoodChart = 330;   // words are set smaller rather than leave less
constexpr float kLeastChart = 225;
constexpr float kPadInside = 16;

Stack words_of(const EstimateBody& body, Setting setting) {
    Stack stack;
    const bool large = setting == Setting::large;
    for (std::size_t i = 0; i < body.results.size(); ++i) {
        const Type first = large ? Type::heading : body_bold_type(setting);
        stack.add(body.results[i], {.type = i == 0 ? first : body_type(setting)}, i == 0 ? 0 : 3);
    }
    stack.add(body.advice, {.type = body_bold_type(setting), .ink = Token::touch}, 10);
    stack.add(body.caution, {.type = Type::small}, 10);
    stack.add(body.source, {.type = Type::small, .ink = Token::ink_2}, 3);
    return stack;
}

void words_panel(Ui& ui, Rect room, const EstimateBody& body) {
    const Rect inside = room.inset(ui.sketch(kPadInside + 4), ui.sketch(kPadInside - 4));
    const Setting setting = setting_that_fits(inside.h, [&](Setting tried) {
        return words_of(body, tried).height(ui, inside.w);
    });
    ui.panel(room);
    words_of(body, setting).draw(ui, inside);
}

float words_height(const Ui& ui, float width, const EstimateBody& body, Setting setting) {
    return words_of(body, setting).height(ui, width - 2 * ui.sketch(kPadInside + 4)) +
           2 * ui.sketch(kPadInside - 4);
}

// The height that the words take of a room in which the curve is above them.
float words_below(const Ui& ui, Rect room, const EstimateBody& body) {
    const float gap = ui.sketch(kPadInside);
    const Setting setting =
        setting_that_fits(room.h - ui.sketch(kGoodChart) - gap, [&](Setting tried) {
            return words_height(ui, room.w, body, tried);
        });
    return std::min(room.h - ui.sketch(kLeastChart) - gap,
                    words_height(ui, room.w, body, setting));
}

// ---- dials ----------------------------------------------------------------------------------

struct DialKey {
    std::string action;
    std::string label;
    bool enabled;
    bool plus;
};

bool step_key(Ui& ui, Rect rect, const DialKey& key, const std::string& why_not) {
    Target target;
    target.id = key.action;
    target.label = key.label;
    target.enabled = key.enabled;
    target.why_not = why_not;
    const Tap tap = ui.target(rect, target);
    const Token ground = !key.enabled ? Token::grey : tap.down ? Token::tile_down : Token::tile;
    ui.fill(rect, ground, ui.sketch(10));
    ui.edge(rect, key.enabled ? Token::touch : Token::line, ui.sketch(2.4F), ui.sketch(10));
    const Token ink = key.enabled ? Token::ink : Token::ink_grey;
    const Dot at = rect.middle();
    const float half = ui.sketch(20);
    ui.line({at.x - half, at.y}, {at.x + half, at.y}, ink, ui.sketch(5));
    if (key.plus) ui.line({at.x, at.y - half}, {at.x, at.y + half}, ink, ui.sketch(5));
    return tap.tapped;
}

bool value_field(Ui& ui, Rect rect, const Dial& dial) {
    Target target;
    target.id = "value:" + dial.id;
    target.label = dial.label;
    const Tap tap = ui.target(rect, target);
    ui.fill(rect, tap.down ? Token::tile_down : Token::plate, ui.sketch(10));
    ui.edge(rect, Token::touch, ui.sketch(2.4F), ui.sketch(10));
    Rect room = rect.inset(ui.sketch(10), ui.sketch(8));
    const TextSpec label{.type = Type::small, .ink = Token::ink_2, .align = Align::middle};
    const TextSpec value{.type = Type::body_bold, .align = Align::middle};
    const float above = ui.paragraph_height(room.w, dial.label, label);
    const float below = ui.paragraph_height(room.w, dial.value, value);
    room.cut_top(std::max(0.0F, room.h - above - below) / 2);
    ui.fitted(room.cut_top(above), dial.label, label);
    ui.fitted_top(room, dial.value, value);
    return tap.tapped;
}

std::optional<Action> dial_row(Ui& ui, Rect row, const Dial& dial) {
    const float key = std::max(ui.mm(kOperatorTargetMm), std::min(row.h, row.w * 0.2F));
    const float gap = ui.mm(kDeskGapMm);
    const Rect less = row.cut_left(key, gap);
    const Rect more = row.cut_right(key, gap);
    const DialKey down{"less:" + dial.id, dial.label + " \u2212", dial.less, false};
    const DialKey up{"more:" + dial.id, dial.label + " +", dial.more, true};
    std::optional<Action> action;
    if (step_key(ui, less, down, dial.why_not)) action = Action{down.action, {}};
    if (value_field(ui, row, dial)) action = Action{"value:" + dial.id, {}};
    if (step_key(ui, more, up, dial.why_not)) action = Action{up.action, {}};
    return action;
}

float dials_height(const Ui& ui, std::size_t count, float row_mm, float gap_mm) {
    const auto rows = static_cast<float>(count);
    return rows * ui.mm(row_mm) + std::max(0.0F, rows - 1) * ui.mm(gap_mm);
}

// From the top of the room; takes them off it.
std::optional<Action> dials(Ui& ui, Rect& room, const std::vector<Dial>& all) {
    const float wanted = dials_height(ui, all.size(), kOperatorTargetMm, kOperatorGapMm);
    const float gap = ui.mm(wanted <= room.h ? kOperatorGapMm : kDeskGapMm);
    std::optional<Action> action;
    for (const Dial& dial : all) {
        const Rect row = room.cut_top(ui.mm(kOperatorTargetMm), gap);
        if (const auto touched = dial_row(ui, row, dial)) action = touched;
    }
    return action;
}

// ---- the two ways up ------------------------------------------------------------------------

void curve(Ui& ui, Rect room, const EstimateBody& body) {
    ui.panel(room, Token::plate, Token::line);
    ui.chart(room.inset(ui.sketch(kPadInside + 4), ui.sketch(kPadInside - 4)), body.chart);
}

std::optional<Action> landscape(Ui& ui, Rect room, const EstimateBody& body) {
    const float gap = ui.sketch(24);
    Rect side = room.cut_right(ui.sketch(kDialsWide), gap);
    const std::optional<Action> action = dials(ui, side, body.dials);
    if (words_height(ui, side.w, body, Setting::compact) <= side.h) {
        const Setting setting = setting_that_fits(
            side.h, [&](Setting tried) { return words_height(ui, side.w, body, tried); });
        words_panel(ui, side.cut_top(words_height(ui, side.w, body, setting)), body);
    } else {
        words_panel(ui, room.cut_bottom(words_below(ui, room, body), ui.sketch(kPadInside)), body);
    }
    curve(ui, room, body);
    return action;
}

std::optional<Action> portrait(Ui& ui, Rect room, const EstimateBody& body) {
    const float gap = ui.sketch(kPadInside);
    if (body.dials.size() < 3) {
        Rect row = room.cut_bottom(
            dials_height(ui, body.dials.size(), kOperatorTargetMm, kOperatorGapMm), gap);
        words_panel(ui, room.cut_bottom(words_below(ui, room, body), gap), body);
        curve(ui, room, body);
        return dials(ui, row, body.dials);
    }
    const float side_wide = room.w - ui.sketch(kDialsUpright) - gap;
    const float dials_high = dials_height(ui, body.dials.size(), kOperatorTargetMm, kDeskGapMm);
    const float words_high = words_height(ui, side_wide, body, Setting::small);
    const float most = room.h - ui.sketch(kGoodChart) - gap;
    Rect below = room.cut_bottom(std::min(most, std::max(dials_high, words_high)), gap);
    words_panel(ui, below.cut_right(side_wide, gap), body);
    curve(ui, room, body);
    return dials(ui, below, body.dials);
}

}  // namespace

std::optional<Action> draw(const EstimateBody& body, const Page&, Ui& ui) {
    return ui.portrait() ? portrait(ui, ui.area(), body) : landscape(ui, ui.area(), body);
}

}  // namespace holdpin::screens
