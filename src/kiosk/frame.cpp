#include "kiosk/frame.hpp"

#include <utility>
#include <variant>

#include "kiosk/bar.hpp"

namespace holdpin {

namespace {

constexpr float kMarginX = 36;  // of the body, in the sketches
constexpr float kMarginY = 16;
constexpr float kFlashEdge = 14;

bool takes_typing(const Page& page) {
    return std::holds_alternative<PinBody>(page.body) ||
           std::holds_alternative<NumberBody>(page.body) ||
           std::holds_alternative<TextBody>(page.body);
}

void start_page(const Page& page, UiState& state, std::int64_t mono_ms) {
    if (state.page_id == page.id && !page.id.empty()) {
        return;
    }
    state = UiState{};
    state.page_id = page.id;
    state.shown_at_ms = mono_ms;
    if (const auto* number = std::get_if<NumberBody>(&page.body)) {
        state.typed = number->start;
    } else if (const auto* text = std::get_if<TextBody>(&page.body)) {
        state.typed = text->start;
        state.layer = text->start.empty() ? KeyLayer::capitals : KeyLayer::lower;
    }
}

// The main action carries what was typed. A PIN is forgotten as soon as it is handed over.
Action with_typed(Action action, const Page& page, UiState& state) {
    if (action.id == page.main.id && takes_typing(page)) {
        action.arg = state.typed;
        if (std::holds_alternative<PinBody>(page.body)) {
            state.typed.clear();
        }
    }
    return action;
}

// Enter is the main action where something is typed; elsewhere it ends what a scanner sent.
std::optional<Action> physical_keys(const Page& page, Ui& ui, UiState& state) {
    if (takes_typing(page)) {
        if (!ui.take_enter() || page.main.id.empty()) {
            return std::nullopt;
        }
        if (!page.main.enabled) {
            ui.set_notice(page.main.why_not);
            return std::nullopt;
        }
        return Action{page.main.id, {}};
    }
    state.scanned += ui.take_typed();
    if (ui.take_enter() && !state.scanned.empty()) {
        return Action{kScanAction, std::exchange(state.scanned, {})};
    }
    return std::nullopt;
}

// What must be read to its end has its main action only from then on.
Page as_read(const Page& page, const UiState& state) {
    Page shown = page;
    if (!page.read_first.empty() && !state.end_shown) {
        shown.main.enabled = false;
        shown.main.why_not = page.read_first;
    }
    return shown;
}

// A finger on the notice means the notice, not what it covers.
void take_notice_away(Ui& ui, UiState& state) {
    if (!state.notice.empty() && ui.finger_went_down() && state.notice_at.contains(ui.finger())) {
        ui.forget_finger();
    }
    state.notice.clear();
}

}  // namespace

std::optional<Action> draw_frame(const Page& page, Ui& ui, UiState& state,
                                 const FrameStart& start) {
    start_page(page, state, start.mono_ms);
    ui.begin(start, state);
    if (ui.finger_went_down() || ui.somebody_typed()) {
        take_notice_away(ui, state);
    }
    Rect room = ui.display();
    const Rect strip = room.cut_top(strip_height(ui));
    const Rect bar = room.cut_bottom(bar_height(ui));
    const Rect body = room.inset(ui.sketch(kMarginX), ui.sketch(kMarginY));
    start.silent ? draw_silent_strip(page, ui, strip) : draw_strip(page, ui, strip);
    ui.set_area(body);
    ui.set_scroll_words(page.more_above, page.more_below);
    std::optional<Action> action = draw_body(page, ui, state);
    state.notice_at = draw_notice(ui, ui.area_beside_page_tiles(), state.notice);
    if (const std::optional<Action> touched = draw_bar(as_read(page, state), ui, bar)) {
        action = touched;
    }
    if (!action) {
        action = physical_keys(page, ui, state);
    }
    const bool awake = ui.finger_went_down() || ui.somebody_typed();
    if (!action && !page.countdown.empty() && awake) {
        action = Action{kStayAction, {}};
    }
    if (start.silent && start.mono_ms / kFlashMs % 2 == 0) {
        ui.edge(ui.display(), Token::danger, ui.sketch(kFlashEdge));
    }
    ui.end();
    return action ? std::optional<Action>(with_typed(*action, page, state)) : std::nullopt;
}

}  // namespace holdpin
