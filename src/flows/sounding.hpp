// Which alarm sounds now, on whatever page: while people have to leave the zone of a lockout, and
// while an air alarm still sends people out of a room. Each repeats until somebody says at the
// kiosk that everybody is out, or outside; after that it is quiet though the hold stands.
// The page only names it; what sounds it comes from outside.
#pragma once

#include "flows/session.hpp"

namespace holdpin {

// Names the alarm on the page, what is said where nothing can sound it, and when it sounds again.
// Records that cannot be read sound nothing: the page tells of them.
void add_sound(const Session& session, Page& page);

}  // namespace holdpin
