// The colours of day and night as tokens, and how well two of them can be told apart. A screen
// names a token, never a number. Contrast is the WCAG 2 ratio of relative luminances, 1 to 21.
#pragma once

#include <cstdint>

namespace holdpin {

enum class Token {
    ground,       // behind everything
    strip,        // top strip and bottom bar
    plate,        // plates, panels
    ink,          // text
    ink_2,        // secondary text
    touch,        // the one main action; headings of small parts; edge of tiles
    on_touch,     // text on touch
    tile,         // other things that can be touched
    tile_down,    // a tile under the finger
    line,         // hair lines
    held,         // pins, refusals; as text on ground or plate only
    danger,       // ground of DANGER
    warning,      // ground of WARNING (ISO 3864 orange), black text
    due,          // something due; never for text
    on,           // handed over
    on_on,        // text on `on`
    caution,      // ISO 3864 yellow, black text
    notice,       // ground of NOTICE
    white,        // text on danger, notice
    black,        // text on caution, warning
    grey,         // a main action that is not yet possible
    ink_grey,     // text on grey
    progress,     // segment of the current step
    to_come,      // segment of a step to come
    lug,          // lug of a hold
    lug_open,     // lug without a pin
    lug_edge,     // edge of a lug without a pin
    rivet,
    warning_body,  // ground of the words of a warning
};

struct Color {
    std::uint8_t r = 0;
    std::uint8_t g = 0;
    std::uint8_t b = 0;
    bool operator==(const Color&) const = default;
};

Color color_of(Token token, bool night);

double relative_luminance(Color color);
double contrast(Color a, Color b);

}  // namespace holdpin
