// Tiles in a grid: the emergency page, what to report, the desk.
#include <algorithm>
#include <array>

#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin::screens {

namespace {

constexpr float kTileTallMm = 60;   // with a drawing
constexpr float kTilePlainMm = 26;  // without

// Columns that leave the fewest empty places on a display that is wide.
int wide_columns(int count) {
    constexpr std::array<int, 13> kColumns = {1, 1, 2, 3, 2, 3, 3, 4, 4, 5, 5, 4, 4};
    return count < static_cast<int>(kColumns.size()) ? kColumns[static_cast<std::size_t>(count)]
                                                     : 5;
}

}  // namespace

std::optional<Action> draw(const GridBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    Stack words;
    words.add(body.heading, {.type = Type::heading});
    words.add(body.remark, {.type = Type::body, .ink = Token::ink_2}, 4);
    room.cut_top(words.draw(ui, {room.x, room.y, room.w, room.h * 0.3F}),
                 words.is_empty() ? 0 : ui.sketch(16));
    const auto count = static_cast<int>(body.tiles.size());
    const int columns = ui.portrait() ? std::min(2, std::max(count, 1)) : wide_columns(count);
    const float least = tiles_height(ui, count, columns);
    const Rect content = ui.begin_scroll(room, least);
    const Rect place{content.x, content.y, content.w, std::max(least, room.h)};
    const bool drawn = std::any_of(body.tiles.begin(), body.tiles.end(),
                                   [](const Tile& one) { return !one.drawing.empty(); });
    const float tallest = ui.mm(drawn ? kTileTallMm : kTilePlainMm);
    const TileRows rows = tiles_in(ui, place, body.tiles, columns, tallest);
    ui.end_scroll();
    return rows.action;
}

}  // namespace holdpin::screens
