// What the glass remembers between frames of one page and no flow needs to know: what is being
// typed, how far a list is scrolled. Reset when Page::id changes.
#pragma once

#include <cstdint>
#include <string>

#include "kiosk/rect.hpp"

namespace holdpin {

enum class KeyLayer { lower, capitals, digits };

struct UiState {
    std::string page_id;
    std::string typed;      // PIN, number, text
    bool untouched = true;  // nothing typed yet: the first key replaces what stood there
    float scroll = 0;       // pixels
    bool end_shown = false;  // of what scrolls
    KeyLayer layer = KeyLayer::lower;
    std::string notice;     // why a grey button did nothing
    Rect notice_at;         // where it stands, over the page
    std::string pressed;    // id of the target under the finger
    std::string scanned;    // characters of a scanner on a page that takes no typing
    std::int64_t shown_at_ms = 0;  // monotonic time at which the page first stood there
};

}  // namespace holdpin
