// How screens cut their area: the picture and the words beside or below it, tiles in rows.
// Measures are those of the sketches and of scale.hpp.
#pragma once

#include <optional>
#include <vector>

#include "flows/page.hpp"
#include "kiosk/kit.hpp"

namespace holdpin::screens {

// Takes the progress row off the top of a room.
void cut_progress(Ui& ui, Rect& room, const Progress& progress);

struct Halves {
    Rect picture;
    Rect words;
};
// Landscape: left and right, the words at most a column of reading wide. Portrait: above and below,
// the picture with `portrait_part` of the height.
Halves halves(const Ui& ui, Rect room, float portrait_part = 0.4F);

// Rows that `count` tiles take in so many columns.
int rows_of(int count, int columns);

// The rows of a grid, to be scrolled.
struct RowSize {
    float height = 0;
    float gap = 0;
};
std::vector<ScrollRow> grid_rows(int count, int columns, RowSize size);

// Tiles in a grid that fills the room.
struct TileGrid {
    int columns = 1;
    float most_height = 0;    // no tile is higher
    bool last_fills = false;  // the last tile takes the one place that would stay empty
    bool urgent = false;
};
struct TileRows {
    std::optional<Action> action;  // of the one that was touched
    float bottom = 0;
};
TileRows tiles_in(Ui& ui, Rect room, const std::vector<Tile>& tiles, const TileGrid& grid);
// The least height of such a grid.
float tiles_height(const Ui& ui, int count, int columns);

}  // namespace holdpin::screens
