// Icons drawn from lines, so that they are sharp at every size and need no font.

#include <array>

#include "kiosk/imgui_compat.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin {

namespace {

// A line through points, in halves of the size around the middle, with round joints and ends.
template <std::size_t count>
void stroke(Ui& ui, Dot middle, float size, Token ink, float thickness,
            const std::array<Dot, count>& points) {
    for (std::size_t i = 0; i < count; ++i) {
        const auto place = [&](Dot p) {
            return Dot{middle.x + p.x * size / 2, middle.y + p.y * size / 2};
        };
        ui.disc(place(points[i]), thickness / 2, ink);
        if (i + 1 < count) {
            ui.line(place(points[i]), place(points[i + 1]), ink, thickness);
        }
    }
}

using Two = std::array<Dot, 2>;
using Three = std::array<Dot, 3>;

}  // namespace

void arrow_left(Ui& ui, Dot middle, float size, Token ink) {
    const float thick = size * 0.11F;
    stroke(ui, middle, size, ink, thick, Two{Dot{-1, 0}, Dot{1, 0}});
    stroke(ui, middle, size, ink, thick, Three{Dot{0, -0.9F}, Dot{-1, 0}, Dot{0, 0.9F}});
}

void arrow_right(Ui& ui, Dot middle, float size, Token ink) {
    const float thick = size * 0.11F;
    stroke(ui, middle, size, ink, thick, Two{Dot{-1, 0}, Dot{1, 0}});
    stroke(ui, middle, size, ink, thick, Three{Dot{0, -0.9F}, Dot{1, 0}, Dot{0, 0.9F}});
}

void arrow_up(Ui& ui, Dot middle, float size, Token ink) {
    const float thick = size * 0.11F;
    stroke(ui, middle, size, ink, thick, Two{Dot{0, -1}, Dot{0, 1}});
    stroke(ui, middle, size, ink, thick, Three{Dot{-0.9F, 0}, Dot{0, -1}, Dot{0.9F, 0}});
}

void arrow_down(Ui& ui, Dot middle, float size, Token ink) {
    const float thick = size * 0.11F;
    stroke(ui, middle, size, ink, thick, Two{Dot{0, -1}, Dot{0, 1}});
    stroke(ui, middle, size, ink, thick, Three{Dot{-0.9F, 0}, Dot{0, 1}, Dot{0.9F, 0}});
}

void tick(Ui& ui, Dot middle, float size, Token ink) {
    stroke(ui, middle, size, ink, size * 0.14F,
           Three{Dot{-0.9F, 0.05F}, Dot{-0.25F, 0.7F}, Dot{0.95F, -0.7F}});
}

void cross(Ui& ui, Dot middle, float size, Token ink) {
    stroke(ui, middle, size, ink, size * 0.14F, Two{Dot{-0.8F, -0.8F}, Dot{0.8F, 0.8F}});
    stroke(ui, middle, size, ink, size * 0.14F, Two{Dot{-0.8F, 0.8F}, Dot{0.8F, -0.8F}});
}

void backspace_icon(Ui& ui, Dot middle, float size, Token ink) {
    const float thick = size * 0.08F;
    stroke(ui, middle, size, ink, thick,
           std::array<Dot, 6>{Dot{-1, 0}, Dot{-0.4F, -0.65F}, Dot{1, -0.65F},
                                Dot{1, 0.65F}, Dot{-0.4F, 0.65F}, Dot{-1, 0}});
    const Dot inner{middle.x + size * 0.14F, middle.y};
    cross(ui, inner, size * 0.34F, ink);
}

void capitals_icon(Ui& ui, Dot middle, float size, Token ink) {
    stroke(ui, middle, size, ink, size * 0.08F,
           std::array<Dot, 8>{Dot{0, -0.9F}, Dot{0.85F, 0}, Dot{0.4F, 0},
                                Dot{0.4F, 0.8F}, Dot{-0.4F, 0.8F}, Dot{-0.4F, 0},
                                Dot{-0.85F, 0}, Dot{0, -0.9F}});
}

// A flat hand, fingers up: four fingers, a thumb at the left, the palm.
void raised_hand(Ui& ui, Dot middle, float size, Token ink, Token ground) {
    const float u = size / 30;
    const auto bar = [&](float x, float top, float bottom, float thick, Token token) {
        const Dot from{middle.x + x * u, middle.y + top * u};
        const Dot to{middle.x + x * u, middle.y + bottom * u};
        ui.line(from, to, token, thick * u);
        ui.disc(from, thick * u / 2, token);
        ui.disc(to, thick * u / 2, token);
    };
    struct Finger {
        float x;
        float top;
    };
    constexpr std::array<Finger, 4> kFingers = {
        Finger{-5.4F, -9.5F}, Finger{-0.6F, -12}, Finger{4.2F, -10.5F}, Finger{8.8F, -6.5F}};
    for (const Token token : {ink, ground}) {
        const float more = token == ink ? 2.1F : 0;
        for (const Finger& finger : kFingers) {
            bar(finger.x, finger.top, 6, 3.1F + more, token);
        }
        const Dot thumb{middle.x - 11.6F * u, middle.y - 0.5F * u};
        const Dot wrist{middle.x - 4.6F * u, middle.y + 8.6F * u};
        ui.line(thumb, wrist, token, (3.3F + more) * u);
        ui.disc(thumb, (3.3F + more) * u / 2, token);
        const Rect palm{middle.x - (6.9F + more / 2) * u, middle.y - (1 + more / 2) * u,
                        (17.2F + more) * u, (14 + more) * u};
        ui.draw().AddRectFilled({palm.x, palm.y}, {palm.right(), palm.bottom()},
                                ui.packed(token), 6 * u);
    }
}

void warning_triangle(Ui& ui, Dot middle, float size, Token ground, Token ink) {
    const float half = size / 2;
    const float tall = size * 0.44F;
    const ImVec2 top(middle.x, middle.y - tall);
    const ImVec2 right(middle.x + half, middle.y + tall);
    const ImVec2 left(middle.x - half, middle.y + tall);
    ui.draw().AddTriangleFilled(top, right, left, ui.packed(ground));
    const float thick = size * 0.1F;
    ui.line({middle.x, middle.y - size * 0.12F}, {middle.x, middle.y + size * 0.16F}, ink, thick);
    ui.disc({middle.x, middle.y + size * 0.3F}, thick * 0.6F, ink);
}

}  // namespace holdpin
