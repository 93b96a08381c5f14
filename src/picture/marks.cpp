#include <algorithm>
#include <array>

#include "picture/marks.hpp"

namespace holdpin {

namespace {

constexpr double kFrameMargin = 8;  // sketch pixels between a part and its frame
constexpr double kLeastFrame = 40;  // a small part is still found
constexpr double kNameGap = 6;      // between a frame and its name
constexpr double kEdge = 4;         // kept free at the picture's edge

bool overlap(const Box& a, const Box& b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height &&
           b.y < a.y + a.height;
}

// Slides a box back inside the room; a box wider than the room starts at its left edge.
Box inside(Box box, const Extent& room, double edge) {
    box.x = std::max(edge, std::min(box.x, room.width - edge - box.width));
    box.y = std::max(edge, std::min(box.y, room.height - edge - box.height));
    return box;
}

// One side of a frame: around the part with a margin, long enough to be seen, inside the room.
struct Side {
    double from;
    double length;
};
Side side_of(double from, double length, double room, double unit) {
    const double edge = kEdge * unit;
    const double wanted = std::max(length + 2 * kFrameMargin * unit, kLeastFrame * unit);
    const double left = std::max(edge, from + length / 2 - wanted / 2);
    const double right = std::min(room - edge, from + length / 2 + wanted / 2);
    return {left, std::max(0.0, right - left)};
}

Box frame_of(const PartBox& part, const Extent& room, double unit) {
    const Side across = side_of(part.x, part.width, room.width, unit);
    const Side down = side_of(part.y, part.height, room.height, unit);
    return {across.from, down.from, across.length, down.length};
}

// Above, below, right, left: in this order of liking.
std::array<Box, 4> places(const Box& frame, const Extent& name, double gap) {
    const double middle_x = frame.x + (frame.width - name.width) / 2;
    const double middle_y = frame.y + (frame.height - name.height) / 2;
    return {Box{middle_x, frame.y - gap - name.height, name.width, name.height},
            Box{middle_x, frame.y + frame.height + gap, name.width, name.height},
            Box{frame.x + frame.width + gap, middle_y, name.width, name.height},
            Box{frame.x - gap - name.width, middle_y, name.width, name.height}};
}

bool is_free(const Box& box, const std::vector<PlacedMark>& marks) {
    return std::none_of(marks.begin(), marks.end(), [&](const PlacedMark& mark) {
        return overlap(box, mark.frame) || (mark.name.width > 0 && overlap(box, mark.name));
    });
}

}  // namespace

std::vector<PlacedMark> place_marks(const std::vector<PartBox>& parts,
                                    const std::vector<Extent>& names, Extent room, double unit) {
    std::vector<PlacedMark> marks;
    for (const auto& part : parts) {
        marks.push_back({frame_of(part, room, unit), {}});
    }
    for (std::size_t index = 0; index < marks.size() && index < names.size(); ++index) {
        if (names[index].width <= 0) {
            continue;
        }
        const auto candidates = places(marks[index].frame, names[index], kNameGap * unit);
        Box chosen = inside(candidates[0], room, kEdge * unit);
        for (const auto& candidate : candidates) {
            const Box box = inside(candidate, room, kEdge * unit);
            if (is_free(box, marks)) {
                chosen = box;
                break;
            }
        }
        marks[index].name = chosen;
    }
    return marks;
}

}  // namespace holdpin
