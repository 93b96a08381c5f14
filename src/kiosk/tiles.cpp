// Answer tiles: one look for all tiles of a grid, then each tile in it.

#include <algorithm>

#include "kiosk/widgets.hpp"

namespace holdpin {

namespace {

constexpr float kPadX = 22;       // sketch pixels from the edge to the words
constexpr float kPadY = 12;
constexpr float kDrawingGap = 8;  // between drawing and words
constexpr float kMostLines = 2;   // of a label, where there is a choice
constexpr float kMark = 24;       // what a tick or a cross takes from the words

struct TileSurface {
    Token ground;
    Token edge;
    Token ink;
};

TileSurface surface_of(const Tile& tile, const TileLook& look, bool down) {
    if (!tile.enabled) {
        return {Token::grey, Token::line, Token::ink_grey};
    }
    const bool red = look.urgent || tile.state == TileState::wrong;
    const Token ground = down ? Token::tile_down : look.urgent ? Token::plate : Token::tile;
    return {ground, red ? Token::held : Token::touch, Token::ink};
}

void state_mark(Ui& ui, Rect rect, TileState state) {
    const float radius = ui.sketch(17);
    const Dot at{rect.right() - radius - ui.sketch(9), rect.y + radius + ui.sketch(9)};
    if (state == TileState::wrong) {
        ui.disc(at, radius, Token::plate);
        ui.ring(at, radius, Token::held, ui.sketch(3));
        cross(ui, at, radius, Token::held);
    } else if (state != TileState::plain) {
        ui.disc(at, radius, Token::touch);
        tick(ui, at, radius, Token::on_touch);
    }
}

Rect room_of(const Ui& ui, Rect rect) { return rect.inset(ui.sketch(kPadX), ui.sketch(kPadY)); }

// Width of the place for a drawing at the left of the words.
float beside_width(const Ui& ui, Rect room) {
    return std::min({room.h * 1.35F, room.w * 0.42F, ui.sketch(260)});
}

Type second_type(Type label) { return label == Type::big ? Type::body : Type::small; }

float words_height(const Ui& ui, float width, const Tile& tile, Type label) {
    return ui.paragraph_height(width, tile.label, {.type = label}) +
           ui.paragraph_height(width, tile.second, {.type = second_type(label)});
}

bool has_drawing(const std::vector<Tile>& tiles) {
    return std::any_of(tiles.begin(), tiles.end(),
                       [](const Tile& one) { return !one.drawing.empty(); });
}

// Every label on few lines without a broken word, and everything inside the height.
bool words_fit(const Ui& ui, Rect words, const std::vector<Tile>& tiles, Type label) {
    return std::all_of(tiles.begin(), tiles.end(), [&](const Tile& one) {
        const float lines = ui.paragraph_height(words.w, one.label, {.type = label});
        return lines <= kMostLines * ui.line_height(label) + 1 &&
               ui.holds_words(words.w, one.label, label) &&
               words_height(ui, words.w, one, label) <= words.h;
    });
}

Rect words_beside(const Ui& ui, Rect cell) {
    Rect words = room_of(ui, cell);
    words.cut_left(beside_width(ui, words), ui.sketch(kPadX));
    return words;
}

// Height that is left for a drawing above the words.
float drawing_above(const Ui& ui, Rect cell, const std::vector<Tile>& tiles, Type label) {
    const Rect room = room_of(ui, cell);
    float most = 0;
    for (const Tile& one : tiles) {
        most = std::max(most, words_height(ui, room.w, one, label));
    }
    return std::min(room.h - most - ui.sketch(kDrawingGap), room.h * 0.62F);
}

// The narrowest drawing decides, since it gains most beside the words.
float aspect_of(const Ui& ui, const std::vector<Tile>& tiles) {
    float least = 4;
    for (const Tile& one : tiles) {
        if (!one.drawing.empty()) {
            least = std::min(least, ui.picture_aspect("tiles/" + one.drawing));
        }
    }
    return least;
}

// Whether drawings become higher beside the words than with `above` over them.
bool better_beside(const Ui& ui, Rect cell, const std::vector<Tile>& tiles, float above) {
    const Rect room = room_of(ui, cell);
    const float aspect = aspect_of(ui, tiles);
    const auto drawn = [&](float width, float height) { return std::min(width / aspect, height); };
    return drawn(beside_width(ui, room), room.h) > drawn(room.w, above);
}

constexpr Type kLabels[] = {Type::big, Type::heading, Type::body_bold};

}  // namespace

TileLook look_of_tiles(const Ui& ui, Rect cell, const std::vector<Tile>& tiles) {
    TileLook look;
    look.drawn = has_drawing(tiles);
    if (!look.drawn) {
        for (const Type label : kLabels) {
            look.label = label;
            if (words_fit(ui, room_of(ui, cell), tiles, label)) break;
        }
        return look;
    }
    const Rect room = room_of(ui, cell);
    look.label = Type::heading;
    const float above = drawing_above(ui, cell, tiles, Type::heading);
    const bool wide = words_fit(ui, words_beside(ui, cell), tiles, Type::heading);
    if (wide && better_beside(ui, cell, tiles, above)) {
        look.beside = true;
        return look;
    }
    Rect words = room;
    words.cut_top(std::max(above, ui.sketch(70)), ui.sketch(kDrawingGap));
    if (words_fit(ui, words, tiles, Type::heading)) return look;
    look.label = Type::body_bold;
    const float small_above = drawing_above(ui, cell, tiles, Type::body_bold);
    look.beside = words_fit(ui, words_beside(ui, cell), tiles, Type::body_bold) &&
                  better_beside(ui, cell, tiles, small_above);
    return look;
}

// The words stand in the middle of their height, and in the middle of the tile under a drawing.
static void tile_words(Ui& ui, Rect room, const Tile& tile, const TileLook& look, Token ink) {
    const Align align = look.drawn && !look.beside ? Align::middle : Align::left;
    const TextSpec first{.type = look.label, .ink = ink, .align = align};
    const TextSpec under{.type = second_type(look.label), .ink = ink, .align = align};
    const float below =
        std::min(ui.paragraph_height(room.w, tile.second, under), room.h * 0.5F);
    const float above = std::min(ui.paragraph_height(room.w, tile.label, first), room.h - below);
    room.cut_top((room.h - above - below) / 2);
    ui.fitted(room.cut_top(above), tile.label, first);
    ui.fitted_top(room, tile.second, under);
}

// Takes the place of the drawing from the words. Without height for one above the words it stands
// beside them all the same.
static void tile_drawing(Ui& ui, Rect& room, const Tile& tile, TileLook& look) {
    if (!look.beside && tile.drawing.empty()) {
        return;
    }
    const float words = words_height(ui, room.w, tile, look.label);
    const float above = std::min(room.h - words - ui.sketch(kDrawingGap), room.h * 0.62F);
    look.beside = look.beside || above < ui.sketch(34);
    const Rect place = look.beside ? room.cut_left(beside_width(ui, room), ui.sketch(kPadX))
                                   : room.cut_top(above, ui.sketch(kDrawingGap));
    if (!tile.drawing.empty()) {
        ui.picture(place, "tiles/" + tile.drawing);
    }
}

bool tile(Ui& ui, Rect rect, const Tile& tile, const TileLook& look, float min_mm) {
    const Tap tap = ui.target(rect, {.id = tile.id,
                                     .label = tile.label,
                                     .min_mm = min_mm,
                                     .enabled = tile.enabled,
                                     .why_not = tile.why_not});
    TileLook own = look;
    const TileSurface surface = surface_of(tile, look, tap.down);
    const bool marked = tile.state != TileState::plain;
    ui.fill(rect, surface.ground, ui.sketch(10));
    ui.edge(rect, surface.edge, ui.sketch(marked || look.urgent ? 6 : 2.4F), ui.sketch(10));
    Rect room = room_of(ui, rect);
    tile_drawing(ui, room, tile, own);
    if (marked && (own.beside || !own.drawn)) {
        room.cut_right(ui.sketch(kMark));
    }
    tile_words(ui, room, tile, own, surface.ink);
    state_mark(ui, rect, tile.state);
    return tap.tapped;
}

}  // namespace holdpin
