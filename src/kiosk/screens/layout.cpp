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

std::vector<ScrollRow> grid_rows(int count, int columns, RowSize size) {
    std::vector<ScrollRow> rows;
    for (int first = 0; first < count; first += columns) {
        const float top = static_cast<float>(first / columns) * (size.height + size.gap);
        rows.push_back({top, size.height, std::min(columns, count - first)});
    }
    return rows;
}

float tiles_height(const Ui& ui, int count, int columns) {
    if (count == 0) return 0;
    const auto rows = static_cast<float>(rows_of(count, columns));
    return rows * ui.mm(kOperatorTargetMm) + (rows - 1) * ui.mm(kOperatorGapMm);
}

TileRows tiles_in(Ui& ui, Rect room, const std::vector<Tile>& tiles, const TileGrid& grid) {
    if (tiles.empty()) return {std::nullopt, room.y};
    const auto count = static_cast<int>(tiles.size());
    const int rows = rows_of(count, grid.columns);
    const float gap = ui.mm(kOperatorGapMm);
    const auto down = static_cast<float>(rows);
    room.h = std::min(room.h, down * grid.most_height + (down - 1) * gap);
    TileRows done{{}, room.bottom()};
    TileLook look = look_of_tiles(ui, grid_cell(room, grid.columns, rows, 0, gap), tiles);
    look.urgent = grid.urgent;
    const bool hole = rows * grid.columns == count + 1;
    for (int index = 0; index < count; ++index) {
        const Tile& one = tiles[static_cast<std::size_t>(index)];
        Rect cell = grid_cell(room, grid.columns, rows, index, gap);
        if (grid.last_fills && hole && index == count - 1) {
            cell.w = room.right() - cell.x;
        }
        if (tile(ui, cell, one, look)) {
            done.action = Action{one.id, {}};
        }
    }
    return done;
}

}  // namespace holdpin::screens
