// People who feel ill where engines run: asked once in mid-shift of whoever comes to the kiosk, and
// said at any time from the emergency page, with nobody signed on. What is kept is the room, the
// time and how many; a name only by its owner's own choice, in an entry of its own. One ill:
// advice. Two in one room within the site's minutes: the air alarm of that room.
#pragma once

#include "flows/session.hpp"

namespace holdpin {

// The question of mid-shift, where it is due: it comes before `action`, which goes on after it.
// Null: there is nothing to ask. Asked before anybody signs on, so that no entry beside the answer
// tells whose it was.
Result<std::unique_ptr<Flow>> mid_shift_question(const Session& session, const Action& action);

// From the emergency page: which room, then how many.
std::unique_ptr<Flow> choose_ill_room(const Session& session);

}  // namespace holdpin
