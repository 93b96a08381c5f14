#include "kiosk/plate.hpp"

#include <algorithm>
#include <string>

#include "kiosk/imgui_compat.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin {

namespace {

constexpr TextSpec kClassSpec{.type = Type::small, .ink = Token::ink_2, .leading = 0.92F};
constexpr float kStateLeading = 0.86F;  // two lines of a state belong together

void rivet(Ui& ui, Dot at) {
    ui.disc(at, ui.sketch(4.6F), Token::rivet);
    ui.ring(at, ui.sketch(4.6F), Token::ink_2, ui.sketch(1.2F));
}

// The number with the top of its capitals at `top`. Returns the bottom of its capitals.
float plate_number(Ui& ui, Rect room, const std::string& number, Type type) {
    while (ui.text_width(number, type) > room.w && one_smaller(type) != type) {
        type = one_smaller(type);
    }
    const Rect line{room.x - ui.sketch(3), room.y - ui.above_capitals(type), room.w + ui.sketch(3),
                    ui.line_height(type)};
    ui.fitted(line, number, {.type = type});
    return room.y + ui.capitals(type);
}

// A number and its unit stay on one line.
std::string class_and_hours(const PlateView& plate) {
    std::string hours;
    for (const char letter : plate.hours) {
        letter == ' ' ? hours += "\u00A0" : hours += letter;
    }
    return hours.empty() ? plate.class_name : plate.class_name + " · " + hours;
}

// As many lines as it takes: names of classes are a third longer in Spanish.
void class_line(Ui& ui, Rect& room, const std::string& words, float gap) {
    ui.fitted(room.cut_top(ui.paragraph_height(room.w, words, kClassSpec), gap), words,
              kClassSpec);
}

void lug_line(Ui& ui, Rect rect, const LugView& view) {
    const bool holds = view.state == LugState::due || view.state == LugState::held;
    const float height = std::min(rect.h * 0.52F, ui.sketch(27));
    lugs(ui, {rect.x + lugs_left(height), rect.middle().y}, height, view.state);
    Rect words = rect;
    words.cut_left(lugs_left(height) + lugs_right(height) + ui.sketch(10));
    const Type word_type = holds ? Type::small_bold : Type::small;
    const float most = words.w * 0.6F;
    const float wanted = ui.text_width(view.word, word_type) + ui.sketch(1);
    const Rect word = words.cut_right(std::min(most, wanted), ui.sketch(10));
    ui.fitted(word, view.word,
              {.type = word_type,
               .ink = view.state == LugState::held  ? Token::held
                      : view.state == LugState::due ? Token::ink
                                                    : Token::ink_2,
               .align = Align::right});
    ui.fitted(words, view.name, {.type = holds ? Type::body_bold : Type::body});
}

Rect plate_room(const Ui& ui, Rect rect) { return rect.inset(ui.sketch(38), ui.sketch(30)); }

Token state_ink(const PlateView& plate) {
    return plate.is_held ? Token::held : Token::ink;
}

}  // namespace

Rect plate_surface(Ui& ui, Rect rect, Token ground) {
    ui.fill(rect, ground, ui.sketch(14));
    ui.edge(rect, Token::ink, ui.sketch(2.2F), ui.sketch(14));
    ui.edge(rect.inset(ui.sketch(7)), Token::line, ui.sketch(1.4F), ui.sketch(9));
    const Rect rivets = rect.inset(ui.sketch(20));
    rivet(ui, {rivets.x, rivets.y});
    rivet(ui, {rivets.right(), rivets.y});
    rivet(ui, {rivets.x, rivets.bottom()});
    rivet(ui, {rivets.right(), rivets.bottom()});
    return plate_room(ui, rect);
}

bool floor_plate(Ui& ui, Rect rect, const PlateView& plate) {
    Tap tap;
    if (!plate.action.empty()) {
        Target target;
        target.id = plate.action;
        target.label = plate.plate;
        tap = ui.target(rect, target);
    }
    Rect room = plate_surface(ui, rect, tap.down ? Token::tile_down : Token::plate);
    room.y -= ui.sketch(5);
    room.h += ui.sketch(7);
    const float number_bottom = plate_number(ui, room, plate.plate, Type::plate);
    room.cut_top(number_bottom - room.y + ui.sketch(10));
    const std::string both = class_and_hours(plate);
    const bool fits = ui.text_width(both, Type::small) <= room.w;
    class_line(ui, room, fits ? both : plate.class_name, ui.sketch(10));
    lug_row(ui, room.cut_top(ui.sketch(24), ui.sketch(4)), plate.lugs, ui.sketch(23));
    room.w += ui.sketch(20);  // a state stays on one line where it can; rivets are above and below
    room.h += ui.sketch(12);  // the last line may hang a little below: it has no edge to touch
    ui.fitted(room, plate.state,
              {.type = Type::state, .ink = state_ink(plate), .leading = kStateLeading});
    return tap.tapped;
}

void holds_plate(Ui& ui, Rect rect, const PlateView& plate) {
    Rect room = plate_surface(ui, rect);
    const float bottom = plate_number(ui, room, plate.plate, Type::plate_huge);
    room.cut_top(bottom - room.y + ui.sketch(8));
    class_line(ui, room, class_and_hours(plate), ui.sketch(6));
    if (plate.lugs.empty()) {
        return;
    }
    const float height = room.h / static_cast<float>(plate.lugs.size());
    for (std::size_t i = 0; i < plate.lugs.size(); ++i) {
        const Rect line = room.cut_top(height);
        lug_line(ui, line, plate.lugs[i]);
        if (i + 1 < plate.lugs.size()) {
            ui.hairline({line.x, line.bottom()}, {line.right(), line.bottom()});
        }
    }
}

void short_plate(Ui& ui, Rect rect, const PlateView& plate, LugState pair) {
    Rect room = plate_surface(ui, rect);
    const float huge = ui.mm(kPlateCapitalsMm);
    const float height = huge * 0.9F;
    Rect number = room;
    number.cut_right(lugs_left(height) + lugs_right(height), ui.sketch(12));
    const float bottom = plate_number(ui, number, plate.plate, Type::plate_huge);
    lugs(ui, {room.right() - lugs_right(height), room.y + huge / 2}, height, pair);
    room.cut_top(bottom - room.y + ui.sketch(8));
    class_line(ui, room, class_and_hours(plate), ui.sketch(10));
    lug_row(ui, room, plate.lugs, ui.sketch(28));
}

float short_plate_height(const Ui& ui, float width, const PlateView& plate) {
    const Rect room = plate_room(ui, {0, 0, width, ui.display().h});
    const float words = ui.paragraph_height(room.w, class_and_hours(plate), kClassSpec);
    return ui.display().h - room.h + ui.mm(kPlateCapitalsMm) + words + ui.sketch(8 + 10 + 31);
}

float handed_head(Ui& ui, Rect rect, const PlateView& plate, float turn) {
    Rect room = rect;
    const float huge = ui.mm(kPlateCapitalsMm);
    const float pair = huge * 0.9F;
    Rect number = room;
    number.cut_right(lugs_left(pair) + lugs_right(pair), ui.sketch(12));
    const float bottom = plate_number(ui, number, plate.plate, Type::plate_huge);
    const Dot middle{rect.right() - pair * 0.7F, rect.y + huge / 2};
    lugs_leaving(ui, middle, pair, LugState::due, turn);
    room.cut_top(bottom - room.y + ui.sketch(8));
    ui.fitted(room.cut_top(ui.line_height(Type::body), ui.sketch(6)), class_and_hours(plate),
              {.type = Type::body, .ink = Token::ink_2});
    lug_row(ui, room.cut_top(ui.sketch(31), ui.sketch(8)), plate.lugs, ui.sketch(28));
    ui.hairline({room.x, room.y}, {room.right(), room.y});
    return room.y - rect.y + ui.sketch(4);
}

std::size_t begin_turn(const Ui& ui) {
    return static_cast<std::size_t>(ui.draw().VtxBuffer.Size);
}

void end_turn(Ui& ui, std::size_t begun, float middle_x, float open) {
    if (open >= 1) {
        return;
    }
    ImVector<ImDrawVert>& vertices = ui.draw().VtxBuffer;
    for (int i = static_cast<int>(begun); i < vertices.Size; ++i) {
        vertices[i].pos.x = middle_x + (vertices[i].pos.x - middle_x) * std::max(0.0F, open);
    }
}

}  // namespace holdpin
