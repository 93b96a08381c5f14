// Dots and rectangles in pixels of the display, y downwards, and the few ways screens cut one
// rectangle into others. Pure: no drawing, no ImGui. (A point is something a round looks at.)
#pragma once

#include <algorithm>

namespace holdpin {

struct Dot {
    float x = 0;
    float y = 0;
};

struct Rect {
    float x = 0;
    float y = 0;
    float w = 0;
    float h = 0;

    float right() const { return x + w; }
    float bottom() const { return y + h; }
    Dot middle() const { return {x + w / 2, y + h / 2}; }
    bool is_empty() const { return w <= 0 || h <= 0; }
    bool contains(Dot p) const {
        return p.x >= x && p.y >= y && p.x < right() && p.y < bottom();
    }

    Rect inset(float by) const { return inset(by, by); }
    Rect inset(float by_x, float by_y) const {
        return {x + by_x, y + by_y, std::max(0.0F, w - 2 * by_x), std::max(0.0F, h - 2 * by_y)};
    }
    Rect moved(float by_x, float by_y) const { return {x + by_x, y + by_y, w, h}; }

    // Takes a piece off one side; this rectangle keeps the rest, less the gap.
    Rect cut_top(float height, float gap = 0) {
        const float taken = std::min(height, h);
        const Rect piece{x, y, w, taken};
        const float gone = std::min(h, taken + gap);
        y += gone;
        h -= gone;
        return piece;
    }
    Rect cut_bottom(float height, float gap = 0) {
        const float taken = std::min(height, h);
        const Rect piece{x, bottom() - taken, w, taken};
        h = std::max(0.0F, h - taken - gap);
        return piece;
    }
    Rect cut_left(float width, float gap = 0) {
        const float taken = std::min(width, w);
        const Rect piece{x, y, taken, h};
        const float gone = std::min(w, taken + gap);
        x += gone;
        w -= gone;
        return piece;
    }
    Rect cut_right(float width, float gap = 0) {
        const float taken = std::min(width, w);
        const Rect piece{right() - taken, y, taken, h};
        w = std::max(0.0F, w - taken - gap);
        return piece;
    }
};

inline Rect common_part(const Rect& a, const Rect& b) {
    const float left = std::max(a.x, b.x);
    const float top = std::max(a.y, b.y);
    const float width = std::min(a.right(), b.right()) - left;
    const float height = std::min(a.bottom(), b.bottom()) - top;
    return {left, top, std::max(0.0F, width), std::max(0.0F, height)};
}

// Cell number `index` of a grid that fills `area`, row by row.
inline Rect grid_cell(const Rect& area, int columns, int rows, int index, float gap) {
    const auto across = static_cast<float>(columns);
    const auto down = static_cast<float>(rows);
    const float width = (area.w - gap * (across - 1)) / across;
    const float height = (area.h - gap * (down - 1)) / down;
    const auto column = static_cast<float>(index % columns);
    const auto row = static_cast<float>(index / columns);
    return {area.x + column * (width + gap), area.y + row * (height + gap), width, height};
}

}  // namespace holdpin
