// Tiles in a grid: the emergency page, what to report, the desk. On the emergency page what kills
// first stands in rows of its own above the rest.
#include <algorithm>
#include <array>

#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

namespace {

constexpr float kTileTallMm = 60;   // with a drawing
constexpr float kTilePlainMm = 40;  // without
constexpr float kFirstMore = 1.25F;  // a row of what comes first is so much higher

// Columns that leave the fewest empty places on a display that is wide.
int wide_columns(int count) {
    constexpr std::array<int, 13> kColumns = {1, 1, 2, 3, 2, 3, 3, 4, 4, 5, 5, 4, 4};
    return count < static_cast<int>(kColumns.size()) ? kColumns[static_cast<std::size_t>(count)]
                                                     : 5;
}

int columns_of(const Ui& ui, int count) {
    return ui.portrait() ? std::min(2, std::max(count, 1)) : wide_columns(count);
}

// Three stand in one row on every display, four in one where it is wide.
int first_columns(const Ui& ui, int count) {
    return ui.portrait() && count > 3 ? 2 : std::clamp(count, 1, 4);
}

TileGrid grid_for(const Ui& ui, const std::vector<Tile>& tiles, int columns) {
    const bool drawn = std::any_of(tiles.begin(), tiles.end(),
                                   [](const Tile& one) { return !one.drawing.empty(); });
    return {.columns = columns, .most_height = ui.mm(drawn ? kTileTallMm : kTilePlainMm)};
}

// As many rows as fit fill the room; the others are as high.
float row_height(const Ui& ui, Rect room, int rows) {
    const float gap = ui.mm(kOperatorGapMm);
    const float least = ui.mm(kOperatorTargetMm);
    const auto fit = std::max(1, static_cast<int>((room.h + gap) / (least + gap)));
    if (fit >= rows) return least;
    const auto shown = static_cast<float>(fit);
    return (room.h - gap * (shown - 1)) / shown;
}

struct Parts {
    std::vector<Tile> first;
    std::vector<Tile> others;
};

Parts parts_of(const GridBody& body) {
    const auto split = body.tiles.begin() +
                       std::clamp<std::ptrdiff_t>(body.first, 0, std::ssize(body.tiles));
    return {{body.tiles.begin(), split}, {split, body.tiles.end()}};
}

std::optional<Action> two_parts(Ui& ui, Rect room, const GridBody& body) {
    const Parts parts = parts_of(body);
    const auto above = static_cast<int>(parts.first.size());
    const auto below = static_cast<int>(parts.others.size());
    const int upper = first_columns(ui, above);
    const int lower = ui.portrait() ? 2 : wide_columns(below);
    const float gap = ui.mm(kOperatorGapMm);
    const auto upper_rows = static_cast<float>(rows_of(above, upper));
    const auto rows = static_cast<float>(rows_of(below, lower));
    const float least_row = ui.mm(kOperatorTargetMm);
    const float least =
        upper_rows * (least_row * kFirstMore + gap) + rows * (least_row + gap) - gap;
    Rect content = ui.begin_scroll(room, [&](Rect) {
        std::vector<ScrollRow> rows_above = grid_rows(above, upper, {least_row * kFirstMore, gap});
        const float top = rows_above.back().bottom() + gap;
        for (ScrollRow row : grid_rows(below, lower, {least_row, gap})) {
            row.top += top;
            rows_above.push_back(row);
        }
        return rows_above;
    });
    content.h = std::max(least, room.h);
    const float one = (content.h - (upper_rows + rows - 1) * gap) /
                      (upper_rows * kFirstMore + rows);
    const Rect top =
        content.cut_top(upper_rows * (one * kFirstMore + gap) - gap, gap);
    TileGrid red = grid_for(ui, parts.first, upper);
    red.urgent = true;
    red.most_height = top.h;
    TileGrid plain = grid_for(ui, parts.others, lower);
    plain.last_fills = true;
    auto action = tiles_in(ui, top, parts.first, red).action;
    if (const auto other = tiles_in(ui, content, parts.others, plain).action) {
        action = other;
    }
    ui.end_scroll();
    return action;
}

}  // namespace

std::optional<Action> draw(const GridBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    Stack words;
    words.add(body.heading, {.type = Type::big});
    words.add(body.remark, {.type = Type::body, .ink = Token::ink_2}, 4);
    room.cut_top(words.draw(ui, {room.x, room.y, room.w, room.h * 0.3F}),
                 words.is_empty() ? 0 : ui.sketch(16));
    const auto count = static_cast<int>(body.tiles.size());
    if (body.first > 0 && body.first < count) {
        return two_parts(ui, room, body);
    }
    const int columns = columns_of(ui, count);
    const float gap = ui.mm(kOperatorGapMm);
    const Rect content = ui.begin_scroll(room, [&](Rect left) {
        return grid_rows(count, columns, {row_height(ui, left, rows_of(count, columns)), gap});
    });
    const Rect place{content.x, content.y, content.w, std::max(content.h, room.h)};
    const TileRows rows = tiles_in(ui, place, body.tiles, grid_for(ui, body.tiles, columns));
    ui.end_scroll();
    return rows.action;
}

}  // namespace holdpin::screens
