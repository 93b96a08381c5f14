// A machine and what holds it: the large plate, and a card for each hold with its reason and who
// lifts it.
#include <algorithm>

#include "kiosk/kit_extra.hpp"
#include "kiosk/plate.hpp"
#include "kiosk/screens/layout.hpp"
#include "kiosk/screens/screens.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin::screens {

namespace {

constexpr float kCardPadding = 24;
constexpr float kCardGap = 18;    // between two cards
constexpr float kCardAir = 36;    // most that a card is higher than its words
constexpr float kAirLargest = 110;  // the same in the largest words
constexpr float kHead = 88;       // the heading with the large pin
constexpr float kPinHeight = 30;  // of the lugs before a title

LugState state_of(const HoldCard& hold) { return hold.self ? LugState::due : LugState::held; }

// The pin that is read from three metres: red before orange before none.
LugState worst(const std::vector<HoldCard>& holds) {
    if (holds.empty()) {
        return LugState::open;
    }
    const bool held =
        std::any_of(holds.begin(), holds.end(), [](const HoldCard& hold) { return !hold.self; });
    return held ? LugState::held : LugState::due;
}

// Where few holds leave the room, their words are larger.
struct CardLook {
    Type title;
    Type reason;
    Type lift;
};
constexpr CardLook kLargest{Type::state, Type::lead, Type::lead};
constexpr CardLook kLarge{Type::big, Type::lead, Type::body};
constexpr CardLook kUsual{Type::heading, Type::body, Type::small};

struct CardSizes {
    float pin;        // height of its lugs
    float pin_width;  // with the distance to the title
    float title;      // height of the title
    float lift;
    float whole;  // least height of the card
};

CardSizes sizes_of(const Ui& ui, float width, const HoldCard& hold, const CardLook& look) {
    CardSizes sizes{};
    const float room = width - 2 * ui.sketch(kCardPadding);
    sizes.pin = ui.sketch(kPinHeight);
    sizes.pin_width = lugs_left(sizes.pin) + lugs_right(sizes.pin) + ui.sketch(14);
    sizes.title = std::max(ui.sketch(44), ui.paragraph_height(room - sizes.pin_width, hold.title,
                                                              {.type = look.title}));
    sizes.lift = ui.paragraph_height(room, hold.lift, {.type = look.lift});
    sizes.whole = 2 * ui.sketch(kCardPadding - 8) + sizes.title + ui.sketch(6) +
                  ui.paragraph_height(room, hold.reason, {.type = look.reason}) + ui.sketch(8) +
                  sizes.lift;
    return sizes;
}

void card(Ui& ui, Rect rect, const HoldCard& hold, const CardLook& look) {
    const CardSizes sizes = sizes_of(ui, rect.w, hold, look);
    ui.panel(rect);
    Rect room = rect.inset(ui.sketch(kCardPadding), ui.sketch(kCardPadding - 8));
    const Rect lift = room.cut_bottom(sizes.lift, ui.sketch(8));
    Rect title = room.cut_top(sizes.title, ui.sketch(6));
    const Rect pin = title.cut_left(sizes.pin_width);
    lugs(ui, {pin.x + lugs_left(sizes.pin), pin.y + ui.sketch(22)}, sizes.pin, state_of(hold));
    ui.fitted(title, hold.title, {.type = look.title});
    ui.fitted_top(room, hold.reason, {.type = look.reason});
    ui.fitted(lift, hold.lift, {.type = look.lift, .ink = Token::ink_2});
}

// Heading with the one large pin at its right.
void head(Ui& ui, Rect rect, const HoldsBody& body) {
    const float height = std::min(ui.sketch(84), rect.h);
    Rect words = rect;
    const Rect pin = words.cut_right(ui.sketch(190));
    lugs(ui, {pin.right() - ui.sketch(90), pin.middle().y}, height, worst(body.holds));
    ui.fitted(words, body.heading, {.type = Type::big});
}

void ready(Ui& ui, Rect room, const HoldsBody& body) {
    ui.panel(room);
    Rect inside = room.inset(ui.sketch(32));
    const Rect picture = inside.cut_top(inside.h * 0.5F, ui.sketch(16));
    lugs(ui, picture.middle(), std::min(ui.sketch(150), picture.h), LugState::open);
    Stack words;
    words.add(body.heading, {.type = Type::big, .align = Align::middle});
    words.add(body.remark, {.type = Type::body, .ink = Token::ink_2, .align = Align::middle}, 14);
    words.draw(ui, inside);
}

float height_of_all(const Ui& ui, float width, const std::vector<HoldCard>& holds,
                    const CardLook& look) {
    float sum = ui.sketch(kCardGap) * (static_cast<float>(holds.size()) - 1);
    for (const auto& hold : holds) {
        sum += sizes_of(ui, width, hold, look).whole;
    }
    return sum;
}

const CardLook& look_of(const Ui& ui, Rect room, const std::vector<HoldCard>& holds) {
    if (height_of_all(ui, room.w, holds, kLargest) <= room.h) return kLargest;
    return height_of_all(ui, room.w, holds, kLarge) <= room.h ? kLarge : kUsual;
}

// As large as they fit; in the usual size what does not fit is turned to by the page.
void cards(Ui& ui, Rect room, const std::vector<HoldCard>& holds) {
    const CardLook& look = look_of(ui, room, holds);
    std::vector<ScrollRow> places;
    const Rect content = ui.begin_scroll(room, [&](Rect left) {
        const float spare = room.h - height_of_all(ui, left.w, holds, look);
        const float air = std::clamp(spare / static_cast<float>(holds.size()), 0.0F,
                                     ui.sketch(&look == &kLargest ? kAirLargest : kCardAir));
        places.clear();
        float top = 0;
        for (const auto& hold : holds) {
            const float height = sizes_of(ui, left.w, hold, look).whole + air;
            places.push_back({top, height});
            top += height + ui.sketch(kCardGap);
        }
        return places;
    });
    for (std::size_t i = 0; i < holds.size(); ++i) {
        card(ui, {content.x, content.y + places[i].top, content.w, places[i].height}, holds[i],
             look);
    }
    ui.end_scroll();
}

struct HoldParts {
    Rect plate;
    Rect others;
};

HoldParts parts_of(const Ui& ui, Rect room) {
    HoldParts parts;
    parts.plate = ui.portrait() ? room.cut_top(room.h * 0.4F, ui.sketch(12))
                                : room.cut_left(room.w * 0.435F, ui.sketch(36));
    parts.others = room;
    return parts;
}

// Upright, with more cards than fit below the list of lugs: the plate has its lugs in a row and the
// pin beside its number, and the cards have what that leaves.
bool is_crowded(const Ui& ui, Rect others, const HoldsBody& body) {
    return ui.portrait() && !body.holds.empty() &&
           height_of_all(ui, others.w, body.holds, kUsual) > others.h - ui.sketch(kHead);
}

void crowded(Ui& ui, Rect room, const HoldsBody& body) {
    short_plate(ui, room.cut_top(short_plate_height(ui, room.w, body.plate), ui.sketch(12)),
                body.plate, worst(body.holds));
    const TextSpec heading{.type = Type::heading};
    const float height = ui.paragraph_height(room.w, body.heading, heading);
    ui.fitted(room.cut_top(height, ui.sketch(10)), body.heading, heading);
    cards(ui, room, body.holds);
}

}  // namespace

std::optional<Action> draw(const HoldsBody& body, const Page&, Ui& ui) {
    auto [plate, room] = parts_of(ui, ui.area());
    std::optional<Action> action;
    if (!body.jobs.id.empty()) {
        Rect& from = ui.portrait() ? room : plate;
        const Rect jobs = from.cut_bottom(ui.mm(kOperatorTargetMm), ui.mm(kOperatorGapMm));
        if (button(ui, jobs, body.jobs)) action = Action{body.jobs.id, {}};
    }
    if (is_crowded(ui, room, body)) {
        crowded(ui, {plate.x, plate.y, room.w, room.bottom() - plate.y}, body);
        return action;
    }
    holds_plate(ui, plate, body.plate);
    if (body.holds.empty()) {
        ready(ui, room, body);
        return action;
    }
    head(ui, room.cut_top(ui.sketch(kHead), ui.sketch(10)), body);
    cards(ui, room, body.holds);
    return action;
}

}  // namespace holdpin::screens
