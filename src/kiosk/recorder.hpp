// What was drawn in one frame, as plain data: every text and every target. A driver looks targets
// up by label or id here, an audit judges sizes, overlaps and contrast from it. Filled anew each
// frame; costs a few strings.
#pragma once

#include <string>
#include <vector>

#include "kiosk/rect.hpp"

namespace holdpin {

struct Drawn {
    std::string id;     // of a target: its action; of a text: empty
    std::string label;  // of a target: what it says
    Rect rect;          // the whole thing
    Rect visible;       // the part inside its scrolling area; empty: scrolled away
    bool target = false;
    bool enabled = true;
    bool scrolls = false;  // inside a scrolling area: may lie beyond it
    bool main = false;    // the one main action
    bool exempt = false;  // signal word in standard colours: its contrast is not ours to choose
    bool over = false;    // laid over the page on purpose, until the next touch
    std::string text;     // of a text: all of it
    float contrast = 0;   // of a text: with what is behind it
    float min_mm = 0;     // of a target: least height and width
    bool clipped = false;        // does not fit into the room it was given
    bool missing_glyph = false;  // a letter that no face has
};

struct Recorder {
    Rect display;
    std::vector<Drawn> drawn;
};

}  // namespace holdpin
