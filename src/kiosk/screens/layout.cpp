#include "kiosk/screens/layout.hpp"

#include <algorithm>

#include "kiosk/widgets.hpp"

namespace holdpin::screens {

namespace {

constexpr float kGutter = 32;  // between picture and words, sketch pixels

}  // namespace

void cut_progress(Ui& ui, Rect& room, const Progress& progress) {
    if (progress.total > 0) {
        const Rect row = room.cut_top(progress_height(ui), ui.sketch(16));
        progress_row(ui, row, progress);
    }
}

Halves halves(const Ui& ui, Rect room, float portrait_part) {
    Halves both;
    if (ui.portrait()) {
        both.picture = room.cut_top(room.h * portrait_part, ui.sketch(20));
        both.words = room;
        return both;
    }
    const float gutter = ui.sketch(kGutter);
    const float words = std::min((room.w - gutter) * 0.525F, ui.column(room.w, Type::heading));
    both.words = room.cut_right(words, gutter);
    both.picture = room;
    return both;
}

int rows_of(int count, int columns) { return (count + columns - 1) / columns; }

float tiles_height(const Ui& ui, int count, int columns) {
    const auto rows = static_cast<float>(rows_of(count, columns));
    return rows * ui.mm(kOperatorTargetMm) + (rows - 1) * ui.mm(kOperatorGapMm);
}

TileRows tiles_in(Ui& ui, Rect room, const std::vector<Tile>& tiles, int columns,
                  float most_height) {
    const auto count = static_cast<int>(tiles.size());
    const int rows = rows_of(count, columns);
    const float gap = ui.mm(kOperatorGapMm);
    const auto down = static_cast<float>(rows);
    room.h = std::min(room.h, down * most_height + (down - 1) * gap);
    TileRows done{{}, room.bottom()};
    for (int index = 0; index < count; ++index) {
        const Tile& one = tiles[static_cast<std::size_t>(index)];
        if (tile(ui, grid_cell(room, columns, rows, index, gap), one)) {
            done.action = Action{one.id, {}};
        }
    }
    return done;
}

Tile other_work(const Button& button) {
    return {button.id, button.label, button.second, "", {}, button.enabled, button.why_not};
}

}  // namespace holdpin::screens
