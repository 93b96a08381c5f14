// Scrolling: content taller than its room moves with the finger, or by a page with the two buttons
// at its right. The finger that drags presses nothing.

#include <algorithm>
#include <cmath>

#include "kiosk/imgui_compat.hpp"
#include "kiosk/kit.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin {

Rect Ui::begin_scroll(Rect room, float content_height, float min_mm) {
    const float most = std::max(0.0F, content_height - room.h);
    if (most > 0) {
        const float size = mm(min_mm);
        const float page = std::max(size, room.h - size);
        Rect column = room;
        const Rect buttons = column.cut_right(size, mm(kDeskGapMm));
        page_button({buttons.x, buttons.y, size, size}, true, -page, most, min_mm);
        page_button({buttons.x, buttons.bottom() - size, size, size}, false, page, most, min_mm);
        const Rect track = buttons.inset(size / 2 - sketch(2), size + mm(2));
        const float shown = track.h * room.h / content_height;
        fill(track, Token::line, sketch(2));
        const float at = track.y + (track.h - shown) * state_->scroll / most;
        fill({track.x - sketch(3), at, track.w + sketch(6), shown}, Token::ink_2, sketch(5));
        room = column;
    }
    scroll_.open = true;
    scroll_.room = room;
    if (pointer_.pressed && room.contains(pointer_.at)) {
        scroll_.held = true;
        scroll_.from = state_->scroll;
    }
    if (scroll_.held && pointer_.dragging && (pointer_.down || pointer_.released)) {
        state_->scroll = scroll_.from - (pointer_.at.y - pointer_.pressed_at.y);
    }
    state_->scroll = std::round(std::clamp(state_->scroll, 0.0F, most));
    // Edges at the left and right are drawn on the border of the room: they are not cut in half.
    const float border = sketch(3);
    draw_->PushClipRect({room.x - border, room.y}, {room.right() + border, room.bottom()}, true);
    return {room.x, room.y - state_->scroll, room.w, content_height};
}

void Ui::end_scroll() {
    draw_->PopClipRect();
    scroll_.open = false;
}

void Ui::page_button(Rect rect, bool up, float step, float most, float min_mm) {
    Target button;
    button.id = up ? "page-up" : "page-down";
    button.label = button.id;
    button.min_mm = min_mm;
    button.enabled = up ? state_->scroll > 0 : state_->scroll < most;
    const Tap tap = target(rect, button);
    panel(rect, tap.down ? Token::tile_down : Token::plate,
          button.enabled ? Token::ink : Token::line);
    const Token ink = button.enabled ? Token::ink : Token::line;
    const float size = rect.h * 0.34F;
    up ? arrow_up(*this, rect.middle(), size, ink) : arrow_down(*this, rect.middle(), size, ink);
    if (tap.tapped) {
        state_->scroll = std::clamp(state_->scroll + step, 0.0F, most);
    }
}

}  // namespace holdpin
