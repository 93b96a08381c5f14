// A question with large tiles. With a picture the warnings stand above it and the remark below it,
// so that the tiles never move; without one the question has the whole width.
#include <algorithm>

#include "kiosk/kit_extra.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {

namespace {

constexpr float kTileTall = 300;      // sketch pixels; a tile with a drawing is no taller
constexpr float kTilePlain = 220;     // nor one without
constexpr float kRoomyPicture = 240;  // below this height warnings are set smaller
const TextSpec kFooting{.type = Type::small, .ink = Token::ink_2};

Stack question_of(const ChoiceBody& body, Setting setting) {
    Stack stack;
    stack.add(body.question, {.type = action_type(setting)});
    stack.add(body.look, {.type = body_type(setting), .ink = Token::ink_2}, 8);
    return stack;
}

float tallest(const Ui& ui, const std::vector<Tile>& tiles) {
    const bool drawn = std::any_of(tiles.begin(), tiles.end(),
                                   [](const Tile& tile) { return !tile.drawing.empty(); });
    return ui.sketch(drawn ? kTileTall : kTilePlain);
}

// Two by two beside a picture; as few rows as can be read where an aside stands below them. Without
// a picture the answers are read like a list where the display is high, and three stand in one row
// where it is wide.
int columns_of(const Ui& ui, const ChoiceBody& body) {
    const std::size_t count = body.tiles.size();
    if (!body.picture.file.empty() && !body.aside.id.empty()) {
        return static_cast<int>(std::clamp<std::size_t>(count, 1, ui.portrait() ? 2 : 3));
    }
    if (!body.picture.file.empty()) {
        return count < 3 ? 1 : 2;
    }
    if (ui.portrait()) {
        return count > 5 ? 2 : 1;
    }
    return count == 3 ? 3 : 2;
}

// Takes the footing off the bottom of a room.
void cut_footing(Ui& ui, Rect& room, const ChoiceBody& body) {
    const float height = ui.paragraph_height(room.w, body.footing, kFooting);
    ui.fitted(room.cut_bottom(height, height > 0 ? ui.sketch(12) : 0), body.footing, kFooting);
}

float aside_height(const Ui& ui, const ChoiceBody& body) {
    return body.aside.id.empty() ? 0 : ui.mm(kOperatorTargetMm);
}

// A way off the question, off the bottom of a room: it looks like the way back in the bar, and
// stands apart from the answers.
std::optional<Action> cut_aside(Ui& ui, Rect& room, const ChoiceBody& body) {
    if (body.aside.id.empty()) return std::nullopt;
    const Rect place = room.cut_bottom(aside_height(ui, body), ui.mm(kOperatorGapMm) * 1.5F);
    if (!bar_button(ui, place, body.aside, {.icon = Icon::back})) return std::nullopt;
    return Action{body.aside.id, {}};
}

// Question at the top, tiles below it.
TileRows question_and_tiles(Ui& ui, Rect room, const ChoiceBody& body) {
    const float words_width = ui.column(room.w, Type::heading);
    const int columns = columns_of(ui, body);
    const float tiles =
        tiles_height(ui, static_cast<int>(body.tiles.size()), columns) + ui.sketch(16);
    const Setting setting = setting_that_fits(room.h - tiles, [&](Setting tried) {
        return question_of(body, tried).height(ui, words_width);
    });
    const Stack question = question_of(body, setting);
    const Rect words{room.x, room.y, words_width, std::max(0.0F, room.h - tiles)};
    room.cut_top(question.draw(ui, words), ui.sketch(16));
    return tiles_in(ui, room, body.tiles,
                    {.columns = columns, .most_height = tallest(ui, body.tiles),
                     .last_fills = columns == 2});
}

// Warnings, picture and remark under each other.
void picture_side(Ui& ui, Rect room, const ChoiceBody& body) {
    const float gap = ui.sketch(14);
    const float remark = remark_band_height(ui, room.w, body.remark);
    const float least_picture = ui.sketch(kRoomyPicture);
    const Setting setting = setting_that_fits(room.h - remark - least_picture, [&](Setting tried) {
        return warning_bands_height(ui, room.w, body.warnings, tried);
    });
    room.cut_top(warning_bands(ui, {room.x, room.y}, room.w, body.warnings, setting),
                 body.warnings.empty() ? 0 : gap);
    const Rect below = room.cut_bottom(remark, body.remark.empty() ? 0 : gap);
    picture_panel(ui, room, body.picture);
    remark_band(ui, below, body.remark, body.remark_is_held);
}

std::optional<Action> without_picture(Ui& ui, Rect room, const ChoiceBody& body) {
    const float gap = ui.sketch(16);
    const float width = ui.column(room.w, Type::heading);
    room.cut_top(warning_bands(ui, {room.x, room.y}, width, body.warnings, Setting::small),
                 body.warnings.empty() ? 0 : gap);
    cut_footing(ui, room, body);
    Rect column{room.x, room.y, width, room.h};
    const auto aside = cut_aside(ui, column, body);
    room.h = column.h;
    const float remark = remark_band_height(ui, width, body.remark);
    Rect upper = room;
    upper.cut_bottom(remark, body.remark.empty() ? 0 : gap);
    const TileRows tiles = question_and_tiles(ui, upper, body);
    remark_band(ui, {room.x, tiles.bottom + gap, width, remark}, body.remark, body.remark_is_held);
    return aside ? aside : tiles.action;
}

// In portrait the warnings, the picture and the remark have what question and tiles leave.
float picture_part(const Ui& ui, Rect room, const ChoiceBody& body) {
    const auto count = static_cast<int>(body.tiles.size());
    const float tiles = tiles_height(ui, count, columns_of(ui, body)) + aside_height(ui, body);
    const float words = question_of(body, Setting::medium).height(ui, room.w) + tiles * 1.15F +
                        ui.paragraph_height(room.w, body.footing, kFooting) + ui.sketch(60);
    return std::clamp(1 - words / room.h, 0.4F, 0.6F);
}

}  // namespace

std::optional<Action> draw(const ChoiceBody& body, const Page&, Ui& ui) {
    Rect room = ui.area();
    cut_progress(ui, room, body.progress);
    if (body.picture.file.empty()) {
        return without_picture(ui, room, body);
    }
    Halves both = halves(ui, room, picture_part(ui, room, body));
    picture_side(ui, both.picture, body);
    cut_footing(ui, both.words, body);
    const auto aside = cut_aside(ui, both.words, body);
    const auto answer = question_and_tiles(ui, both.words, body).action;
    return aside ? aside : answer;
}

}  // namespace holdpin::screens
