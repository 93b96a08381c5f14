// Where the marks over an illustration go: a frame around each named part and its name beside it.
// Pure: frames stay inside the room, a name stands where it covers neither a frame nor another name
// as long as there is such a place, and of those beside its frame where it hides the least of the
// picture. Drawing them is for the screen or the page that shows them.
#pragma once

#include <vector>

#include "picture/drawing.hpp"

namespace holdpin {

struct Box {
    double x = 0;
    double y = 0;
    double width = 0;
    double height = 0;
    bool operator==(const Box&) const = default;
};
bool overlap(const Box& a, const Box& b);

struct Extent {
    double width = 0;
    double height = 0;
};

// From a name to its frame, where the name does not stand beside it.
struct Leader {
    double from_x = 0;
    double from_y = 0;
    double to_x = 0;
    double to_y = 0;
    bool is_needed = false;
};

struct PlacedMark {
    Box frame;
    Box name = {};  // of no size when the part has no name
    Leader leader = {};
};

// What the marks may fill, with the boxes measured from its corner, and the picture in it.
struct Ground {
    Extent room;
    double unit = 1;  // size of a sketch pixel: 1 at 5.9 pixels to the millimetre
    InkMap ink = {};
    double ink_x = 0;  // where the picture begins
    double ink_y = 0;

    double ink_under(const Box& box) const {
        return ink.under(box.x - ink_x, box.y - ink_y, box.width, box.height);
    }
};

// `names` has one size for each part.
std::vector<PlacedMark> place_marks(const std::vector<PartBox>& parts,
                                    const std::vector<Extent>& names, const Ground& ground);

}  // namespace holdpin
