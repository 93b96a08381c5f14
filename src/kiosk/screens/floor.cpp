// Nobody signed on, or choosing a machine: the plates and one large tile, in a grid.
#include <algorithm>
#include <cmath>
#include <limits>

#include "kiosk/plate.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {

namespace {

constexpr float kPlateWidthMm = 57;    // least width at which the seven lugs and the state word fit
constexpr float kPlateHeightMm = 42;   // least height
constexpr float kPlateTallMm = 72;     // no plate is taller
constexpr float kPlateAspect = 1.45F;  // width to height that looks like a plate

struct Grid {
    int columns = 1;
    float cell_height = 0;
    float content_height = 0;
};

int fitting(float length, float least, float gap) {
    return std::max(1, static_cast<int>(std::floor((length + gap) / (least + gap))));
}

Grid grid_with(const Ui& ui, Rect room, int items, int columns) {
    const float gap = ui.mm(kOperatorGapMm);
    const int rows = rows_of(items, columns);
    const int visible = std::min(rows, fitting(room.h, ui.mm(kPlateHeightMm), gap));
    const auto across = static_cast<float>(visible);
    Grid grid;
    grid.columns = columns;
    grid.cell_height = std::min((room.h - gap * (across - 1)) / across, ui.mm(kPlateTallMm));
    const auto down = static_cast<float>(rows);
    grid.content_height = down * grid.cell_height + (down - 1) * gap;
    return grid;
}

// As many columns as make the plates look most like plates without scrolling; when every number of
// columns scrolls, as many as fit.
Grid grid_of(const Ui& ui, Rect room, int items) {
    const float gap = ui.mm(kOperatorGapMm);
    const int most = std::min(fitting(room.w, ui.mm(kPlateWidthMm), gap), std::max(items, 1));
    Grid best = grid_with(ui, room, items, most);
    float least_odd = std::numeric_limits<float>::max();
    for (int columns = most; columns >= 1; --columns) {
        const Grid grid = grid_with(ui, room, items, columns);
        const auto across = static_cast<float>(columns);
        const float width = (room.w - gap * (across - 1)) / across;
        const float odd = std::abs(std::log(width / grid.cell_height / kPlateAspect));
        if (grid.content_height <= room.h + 1 && odd < least_odd) {
            least_odd = odd;
            best = grid;
        }
    }
    return best;
}

void large_tile(Ui& ui, Rect rect, const Button& button, std::optional<Action>& action) {
    const Tap tap = ui.target(rect, {.id = button.id,
                                     .label = button.label,
                                     .enabled = button.enabled,
                                     .why_not = button.why_not});
    const Token ground = button.enabled ? Token::touch : Token::grey;
    const Token ink = button.enabled ? Token::on_touch : Token::ink_grey;
    ui.fill(rect, ground, ui.sketch(12));
    if (tap.down) {
        ui.edge(rect, Token::ink, ui.sketch(4), ui.sketch(12));
    }
    const Rect room = rect.inset(ui.sketch(20));
    const float label = ui.line_height(Type::state);
    const float second = button.second.empty() ? 0 : ui.line_height(Type::body) * 2;
    Rect words{room.x, room.middle().y - (label + second) / 2, room.w, label + second};
    ui.fitted(words.cut_top(label), button.label,
              {.type = Type::state, .ink = ink, .align = Align::middle});
    ui.fitted_top(words, button.second, {.type = Type::body, .ink = ink, .align = Align::middle});
    if (tap.tapped) {
        action = Action{button.id, {}};
    }
}

}  // namespace

std::optional<Action> draw(const FloorBody& body, const Page&, Ui& ui) {
    const Rect room = ui.area();
    const auto plates = static_cast<int>(body.plates.size());
    const int items = plates + (body.large.id.empty() ? 0 : 1);
    Grid grid;
    const Rect content = ui.begin_scroll(room, [&](Rect left) {
        grid = grid_of(ui, left, items);
        return grid_rows(items, grid.columns, {grid.cell_height, ui.mm(kOperatorGapMm)});
    });
    const int rows = rows_of(items, grid.columns);
    const float gap = ui.mm(kOperatorGapMm);
    std::optional<Action> action;
    for (int index = 0; index < plates; ++index) {
        const PlateView& plate = body.plates[static_cast<std::size_t>(index)];
        if (floor_plate(ui, grid_cell(content, grid.columns, rows, index, gap), plate)) {
            action = Action{plate.action, {}};
        }
    }
    if (items > plates) {
        large_tile(ui, grid_cell(content, grid.columns, rows, plates, gap), body.large, action);
    }
    ui.end_scroll();
    return action;
}

}  // namespace holdpin::screens
