// The engraved plate of a machine, and the lugs and pins that show what holds it. A hold is a pin
// through both lugs with its ring on the left: orange and half-way in while the person at the
// screen can act, red and fully in while somebody else must. No hold: two empty lugs with holes.
// Not asked yet: dotted lugs. The shape tells; colour and a word follow.
#pragma once

#include <cstddef>
#include <vector>

#include "flows/page.hpp"
#include "kiosk/kit.hpp"

namespace holdpin {

// One pair of lugs around `middle`, `height` being that of a lug.
void lugs(Ui& ui, Dot middle, float height, LugState state);
// The same with its pin on the way out: 0 in, 1 gone. It slides left and falls.
void lugs_leaving(Ui& ui, Dot middle, float height, LugState state, float gone);
// How far a pair reaches from its middle, with a pin half-way in at the left.
float lugs_left(float height);
float lugs_right(float height);

// A row of seven over the whole width of the rectangle.
void lug_row(Ui& ui, Rect rect, const std::vector<LugView>& views, float height);

// The surface alone: edge, inner line, four rivets. Returns the room inside.
Rect plate_surface(Ui& ui, Rect rect, Token ground = Token::plate);

// Small plate of the floor: number, class, row of seven, state word. True when touched.
bool floor_plate(Ui& ui, Rect rect, const PlateView& plate);

// Large plate of the holds page: huge number, class and hours, list of seven with names and words.
void holds_plate(Ui& ui, Rect rect, const PlateView& plate);

// The same with its lugs in a row, and the one large pair at the right of the number.
void short_plate(Ui& ui, Rect rect, const PlateView& plate, LugState pair);
float short_plate_height(const Ui& ui, float width, const PlateView& plate);

// Head of the handed plate: huge number, class, one large pair, row of seven. Returns its height.
// `turn`: 0 the last pin is still in, 1 it is drawn.
float handed_head(Ui& ui, Rect rect, const PlateView& plate, float turn);

// A plate that turns about its upright middle line: what is drawn between the two calls is shown
// as narrow as `open` says (0 edge on, 1 facing). What is recorded does not turn.
std::size_t begin_turn(const Ui& ui);
void end_turn(Ui& ui, std::size_t begun, float middle_x, float open);

}  // namespace holdpin
