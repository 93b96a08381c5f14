// Scrolling: content taller than its room moves by a page with the two tall tiles at its right, or
// with the finger; left alone it stands at the top of a row, and no row is cut. The tiles say how
// much is out of sight. The finger that drags presses nothing.

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "kiosk/imgui_compat.hpp"
#include "kiosk/kit.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin {

namespace {

struct PageTile {
    const char* id;
    const std::string& words;  // "more below"
    int count;
    bool enabled;
    DrawIcon icon;
};

std::string sign_of(const PageTile& tile) {
    return tile.count > 0 ? std::to_string(tile.count) + " " + tile.words : tile.words;
}

Tap touch(Ui& ui, Rect rect, const PageTile& tile) {
    Target target;
    target.id = tile.id;
    target.label = sign_of(tile);
    target.enabled = tile.enabled;
    return ui.target(rect, target);
}

// Arrow, count and words under each other, in the middle of a tall tile.
void face(Ui& ui, Rect rect, const PageTile& tile, bool down) {
    const Token ink = tile.enabled ? Token::ink : Token::line;
    ui.fill(rect, down ? Token::tile_down : tile.enabled ? Token::tile : Token::plate,
            ui.sketch(10));
    ui.edge(rect, tile.enabled ? Token::touch : Token::line, ui.sketch(2.4F), ui.sketch(10));
    Rect room = rect.inset(ui.sketch(6));
    const float size = std::min(room.w * 0.42F, room.h * 0.3F);
    const float count = tile.enabled && tile.count > 0 ? ui.line_height(Type::big) : 0;
    const TextSpec under{.type = Type::small_bold, .align = Align::middle, .leading = 0.92F};
    const float words = tile.enabled ? ui.paragraph_height(room.w, tile.words, under) : 0;
    const float gap = words > 0 ? ui.sketch(10) : 0;
    room.cut_top((room.h - size - gap - count - words) / 2);
    tile.icon(ui, room.cut_top(size, gap).middle(), size, ink);
    if (count > 0) {
        ui.fitted(room.cut_top(count), std::to_string(tile.count),
                  {.type = Type::big, .align = Align::middle});
    }
    if (words > 0) {
        ui.fitted_top(room, tile.words, under);
    }
}

}  // namespace

Rect Ui::area_beside_page_tiles() const {
    Rect beside = area_;
    beside.w -= scroll_.tiles;
    return beside;
}

Rect Ui::page_tiles(Rect room, const Paging& paging) {
    Rect lower = room.cut_right(mm(kPageTileMm), mm(kOperatorGapMm));
    scroll_.tiles = area_.right() - room.right();
    const Rect upper = lower.cut_top((lower.h - mm(kOperatorGapMm)) / 2, mm(kOperatorGapMm));
    const float at = paging.nearest(state_->scroll);
    PageTile up{"page-up", scroll_words_.above, paging.above(at), at > 0, arrow_up};
    PageTile on{"page-down", scroll_words_.below, paging.below(at), at < paging.last(),
                arrow_down};
    const Tap back = touch(*this, upper, up);
    const Tap forth = touch(*this, lower, on);
    if (back.tapped || forth.tapped) {
        state_->scroll = back.tapped ? paging.previous(at) : paging.next(at);
        up.count = paging.above(state_->scroll);
        up.enabled = state_->scroll > 0;
        on.count = paging.below(state_->scroll);
        on.enabled = state_->scroll < paging.last();
    }
    face(*this, upper, up, back.down);
    face(*this, lower, on, forth.down);
    return room;
}

Rect Ui::begin_scroll(Rect room, const RowsIn& rows_in) {
    Paging paging(rows_in(room), room.h);
    if (paging.is_needed()) {
        Rect left = room;
        left.cut_right(mm(kPageTileMm), mm(kOperatorGapMm));
        paging = Paging(rows_in(left), left.h);
        room = page_tiles(room, paging);
    }
    scroll_.open = true;
    if (pointer_.pressed && room.contains(pointer_.at)) {
        scroll_.held = true;
        scroll_.from = state_->scroll;
    }
    const bool moves = scroll_.held && pointer_.dragging && (pointer_.down || pointer_.released);
    if (moves) {
        const float wanted = scroll_.from - (pointer_.at.y - pointer_.pressed_at.y);
        state_->scroll = std::round(std::clamp(wanted, 0.0F, paging.last()));
        wants_frame_ = true;  // when it is let go it moves on to the next row
    } else {
        state_->scroll = paging.nearest(state_->scroll);
        if (paging.is_needed()) room.h = paging.filled(state_->scroll);
        if (!paging.is_needed() || state_->scroll >= paging.last()) state_->end_shown = true;
    }
    scroll_.room = room;
    // Edges at the left and right are drawn on the border of the room: they are not cut in half.
    const float border = sketch(3);
    draw_->PushClipRect({room.x - border, room.y}, {room.right() + border, room.bottom()}, true);
    return {room.x, room.y - std::round(state_->scroll), room.w, paging.height()};
}

void Ui::end_scroll() {
    draw_->PopClipRect();
    scroll_.open = false;
}

}  // namespace holdpin
