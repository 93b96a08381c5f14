// Widgets made of the kit's pieces: what screens are put together from. Each is drawn into a
// rectangle the caller gives; those that can be touched return true when tapped.
#pragma once

#include <string>
#include <vector>

#include "flows/page.hpp"
#include "kiosk/kit.hpp"

namespace holdpin {

// ---- things to touch ------------------------------------------------------------------------
// A large answer tile: drawing, label, small second line. Chosen, right and wrong differ in shape
// (thick edge, tick, cross) before they differ in colour. The tiles of one grid have one look.
struct TileLook {
    Type label = Type::body_bold;
    bool beside = false;   // drawing at the left of the words instead of above them
    bool drawn = false;    // some tile of the grid has a drawing: words line up with those
    bool urgent = false;   // what kills first: plate ground, thick red edge
};
bool tile(Ui& ui, Rect rect, const Tile& tile, const TileLook& look = {},
          float min_mm = kOperatorTargetMm);
// The largest words, and the place for drawings, with which all tiles of this size can be read.
TileLook look_of_tiles(const Ui& ui, Rect cell, const std::vector<Tile>& tiles);

enum class ButtonLook { plain, primary };  // panel with ink edge; touch-coloured
bool button(Ui& ui, Rect rect, const Button& button, ButtonLook look = ButtonLook::plain,
            float min_mm = kOperatorTargetMm);

// A button of the bottom bar: with an icon, and a second line.
enum class Icon { none, back, next, hand };
struct BarLook {
    ButtonLook look = ButtonLook::plain;
    Icon icon = Icon::none;
    bool main = false;
};
bool bar_button(Ui& ui, Rect rect, const Button& button, const BarLook& look);

// A row of a list: mark at the left, label over second, word and tick at the right.
bool row(Ui& ui, Rect rect, const Row& row, float min_mm = kOperatorTargetMm);
float row_height(const Ui& ui, float width, const Row& row, float min_mm = kOperatorTargetMm);

// A key of a pad or keyboard.
bool key(Ui& ui, Rect rect, const std::string& id, const std::string& label, float min_mm,
         Type type = Type::big);
// A key with an icon instead of a letter; `on` shows that it stays down. Its label is its id.
using DrawIcon = void (*)(Ui& ui, Dot middle, float size, Token ink);
struct IconKey {
    std::string id;
    DrawIcon icon = nullptr;
    float min_mm = kOperatorTargetMm;
    bool on = false;
};
bool icon_key(Ui& ui, Rect rect, const IconKey& key);

// ---- things to read ---------------------------------------------------------------------------
// The picture in its panel, caption at the bottom left; draws an empty panel when there is none.
void picture_panel(Ui& ui, Rect rect, const PictureView& picture);

// Row of segments: done, current, to come. `rect` gives place and width; thickness is the kit's.
void progress_row(Ui& ui, Rect rect, const Progress& progress);
float progress_height(const Ui& ui);

// ---- icons, drawn, no font --------------------------------------------------------------------
void arrow_left(Ui& ui, Dot middle, float size, Token ink);
void arrow_right(Ui& ui, Dot middle, float size, Token ink);
void arrow_up(Ui& ui, Dot middle, float size, Token ink);
void arrow_down(Ui& ui, Dot middle, float size, Token ink);
void tick(Ui& ui, Dot middle, float size, Token ink);
void cross(Ui& ui, Dot middle, float size, Token ink);
void backspace_icon(Ui& ui, Dot middle, float size, Token ink);
void capitals_icon(Ui& ui, Dot middle, float size, Token ink);
void raised_hand(Ui& ui, Dot middle, float size, Token ink, Token ground);
void warning_triangle(Ui& ui, Dot middle, float size, Token ground, Token ink);

}  // namespace holdpin
