#include <algorithm>
#include <cmath>
#include <optional>

#include "picture/marks.hpp"

namespace holdpin {

namespace {

constexpr double kFrameMargin = 8;  // sketch pixels between a part and its frame
constexpr double kLeastFrame = 40;  // a small part is still found
constexpr double kNameGap = 6;      // between a frame and its name
constexpr double kEdge = 4;         // kept free at the picture's edge

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

// Above, below, right, left, in this order of liking; in the middle of the side first, then with
// an edge in line.
std::vector<Box> places(const Box& frame, const Extent& name, double gap) {
    const double above = frame.y - gap - name.height;
    const double below = frame.y + frame.height + gap;
    const double right = frame.x + frame.width + gap;
    const double left = frame.x - gap - name.width;
    std::vector<Box> all;
    for (const double along : {0.5, 0.0, 1.0}) {
        const double x = frame.x + (frame.width - name.width) * along;
        const double y = frame.y + (frame.height - name.height) * along;
        all.push_back({x, above, name.width, name.height});
        all.push_back({x, below, name.width, name.height});
        all.push_back({right, y, name.width, name.height});
        all.push_back({left, y, name.width, name.height});
    }
    return all;
}

bool is_free_of_names(const Box& box, const std::vector<PlacedMark>& marks) {
    return std::none_of(marks.begin(), marks.end(), [&](const PlacedMark& mark) {
        return mark.name.width > 0 && overlap(box, mark.name);
    });
}

bool is_free(const Box& box, const std::vector<PlacedMark>& marks) {
    return is_free_of_names(box, marks) &&
           std::none_of(marks.begin(), marks.end(),
                        [&](const PlacedMark& mark) { return overlap(box, mark.frame); });
}

// Above and below, left and right of the frame, further away with each ring.
std::vector<Box> free_places_around(const Box& frame, const Extent& name, const Extent& room) {
    std::vector<Box> all;
    const double step = name.height / 2;
    for (double away = step; away < room.height; away += step) {
        const double above = frame.y - away - name.height;
        const double below = frame.y + frame.height + away;
        for (const double along : {0.5, 0.0, 1.0}) {
            const double x = frame.x + (frame.width - name.width) * along;
            all.push_back({x, above, name.width, name.height});
            all.push_back({x, below, name.width, name.height});
        }
        all.push_back({frame.x - away - name.width, frame.y, name.width, name.height});
        all.push_back({frame.x + frame.width + away, frame.y, name.width, name.height});
    }
    return all;
}

// Away from the frame's side in steps of half a line, upwards and downwards by turns.
std::vector<Box> places_further_away(const Box& frame, const Extent& name, double room_height) {
    std::vector<Box> all;
    const double x = frame.x + (frame.width - name.width) / 2;
    const double middle = frame.y + (frame.height - name.height) / 2;
    for (double away = name.height / 2; away < room_height; away += name.height / 2) {
        all.push_back({x, middle - away, name.width, name.height});
        all.push_back({x, middle + away, name.width, name.height});
    }
    return all;
}

// Of the free places beside the frame the one that hides the least of the picture.
std::optional<Box> emptiest(const std::vector<Box>& candidates,
                            const std::vector<PlacedMark>& marks, const Ground& ground) {
    std::optional<Box> best;
    double least = 2;  // more than all of it
    for (const Box& candidate : candidates) {
        const double ink = ground.ink_under(candidate);
        if (ink >= least || !is_free(candidate, marks)) continue;
        least = ink;
        best = candidate;
    }
    return best;
}

Box place_of(const Box& frame, const Extent& name, const std::vector<PlacedMark>& marks,
             const Ground& ground) {
    const Extent& room = ground.room;
    const double edge = kEdge * ground.unit;
    std::vector<Box> candidates = places(frame, name, kNameGap * ground.unit);
    for (auto& candidate : candidates) candidate = inside(candidate, room, edge);
    if (const auto best = emptiest(candidates, marks, ground)) return *best;
    // Further away a line leads from the name to its frame.
    for (const auto& candidate : free_places_around(frame, name, room)) {
        const Box box = inside(candidate, room, edge);
        if (is_free(box, marks)) {
            return box;
        }
    }
    // Two names on each other cannot be read; a name on a frame can.
    for (const auto& candidate : candidates) {
        if (is_free_of_names(candidate, marks)) {
            return candidate;
        }
    }
    for (const auto& candidate : places_further_away(frame, name, room.height)) {
        const Box box = inside(candidate, room, edge);
        if (is_free_of_names(box, marks)) {
            return box;
        }
    }
    return candidates.front();
}

}  // namespace

bool overlap(const Box& a, const Box& b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height &&
           b.y < a.y + a.height;
}

static Leader leader_of(const PlacedMark& mark, double unit) {
    const Box& name = mark.name;
    const Box& frame = mark.frame;
    const auto near = [](double at, double from, double length) {
        return std::clamp(at, from, from + length);
    };
    const double name_x = name.x + name.width / 2;
    const double frame_x = near(name_x, frame.x, frame.width);
    const double frame_y = near(name.y + name.height / 2, frame.y, frame.height);
    Leader leader{near(frame_x, name.x, name.width), near(frame_y, name.y, name.height), frame_x,
                  frame_y, false};
    const double far = 2 * kNameGap * unit;
    leader.is_needed = std::abs(leader.to_x - leader.from_x) > far ||
                       std::abs(leader.to_y - leader.from_y) > far;
    return leader;
}

std::vector<PlacedMark> place_marks(const std::vector<PartBox>& parts,
                                    const std::vector<Extent>& names, const Ground& ground) {
    std::vector<PlacedMark> marks;
    for (const auto& part : parts) {
        marks.push_back({.frame = frame_of(part, ground.room, ground.unit)});
    }
    for (std::size_t index = 0; index < marks.size() && index < names.size(); ++index) {
        if (names[index].width <= 0) {
            continue;
        }
        marks[index].name = place_of(marks[index].frame, names[index], marks, ground);
        marks[index].leader = leader_of(marks[index], ground.unit);
    }
    return marks;
}

}  // namespace holdpin
