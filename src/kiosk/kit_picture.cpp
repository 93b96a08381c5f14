// Pictures: a texture centred in its room, dashed frames around the parts in question and their
// names beside them, placed by picture/marks so that they do not cover each other. And charts.

#include <algorithm>
#include <cmath>

#include "kiosk/imgui_compat.hpp"
#include "kiosk/kit.hpp"
#include "picture/marks.hpp"

namespace holdpin {

namespace {

constexpr float kNamePad = 6;  // sketch pixels at both ends of a name
constexpr TextSpec kNameSpec{.type = Type::small_bold, .ink = Token::touch};

void dashed_line(Ui& ui, Dot from, Dot to, float thickness) {
    const float length = std::hypot(to.x - from.x, to.y - from.y);
    const float dash = ui.sketch(11);
    const float gap = ui.sketch(6);
    for (float at = 0; at < length; at += dash + gap) {
        const float end = std::min(length, at + dash);
        const auto along = [&](float way) {
            return Dot{from.x + (to.x - from.x) * way / length,
                         from.y + (to.y - from.y) * way / length};
        };
        ui.line(along(at), along(end), Token::touch, thickness);
    }
}

void dashed_frame(Ui& ui, Rect rect) {
    const float thickness = ui.sketch(4);
    dashed_line(ui, {rect.x, rect.y}, {rect.right(), rect.y}, thickness);
    dashed_line(ui, {rect.right(), rect.y}, {rect.right(), rect.bottom()}, thickness);
    dashed_line(ui, {rect.right(), rect.bottom()}, {rect.x, rect.bottom()}, thickness);
    dashed_line(ui, {rect.x, rect.bottom()}, {rect.x, rect.y}, thickness);
}

// On a ground of its own, because lines of the picture may run there.
void name_beside(Ui& ui, Rect place, const std::string& name) {
    ui.fill(place, Token::plate, ui.sketch(4));
    ui.text({place.x + ui.sketch(kNamePad), place.y}, name, kNameSpec);
}

void leader_line(Ui& ui, Dot corner, const Leader& leader) {
    const auto dot = [&](double x, double y) {
        return Dot{corner.x + static_cast<float>(x), corner.y + static_cast<float>(y)};
    };
    ui.line(dot(leader.from_x, leader.from_y), dot(leader.to_x, leader.to_y), Token::touch,
            ui.sketch(3));
}

Rect at(Dot corner, const Box& box) {
    return {corner.x + static_cast<float>(box.x), corner.y + static_cast<float>(box.y),
            static_cast<float>(box.width), static_cast<float>(box.height)};
}

void marks(Ui& ui, Rect room, const Texture& texture, const std::vector<PartMark>& parts) {
    const Ground ground{{room.w, room.h},
                        ui.sketch(1),
                        texture.ink,
                        std::round((room.w - static_cast<float>(texture.width)) / 2),
                        std::round((room.h - static_cast<float>(texture.height)) / 2)};
    std::vector<PartBox> boxes = texture.parts;
    for (PartBox& box : boxes) {
        box.x += ground.ink_x;
        box.y += ground.ink_y;
    }
    std::vector<Extent> names;
    for (const PartMark& part : parts) {
        names.push_back({ui.text_width(part.name, kNameSpec.type) + 2 * ui.sketch(kNamePad),
                         part.name.empty() ? 0 : ui.line_height(kNameSpec.type)});
    }
    const auto placed = place_marks(boxes, names, ground);
    for (const PlacedMark& mark : placed) {
        dashed_frame(ui, at({room.x, room.y}, mark.frame));
        if (mark.leader.is_needed) {
            leader_line(ui, {room.x, room.y}, mark.leader);
        }
    }
    for (std::size_t i = 0; i < placed.size() && i < parts.size(); ++i) {
        if (!parts[i].name.empty()) {
            name_beside(ui, at({room.x, room.y}, placed[i].name), parts[i].name);
        }
    }
}

}  // namespace

bool Ui::picture(Rect room, std::string_view file, const std::vector<PartMark>& parts) {
    if (file.empty() || room.w < 1 || room.h < 1) {
        return false;
    }
    const PictureAsk ask{std::string(file), static_cast<int>(room.w), static_cast<int>(room.h),
                         night(), parts};
    const Texture texture = textures_.picture(ask);
    if (texture.id == 0) {
        return false;
    }
    const auto width = static_cast<float>(texture.width);
    const auto height = static_cast<float>(texture.height);
    const float x = std::round(room.x + (room.w - width) / 2);
    const float y = std::round(room.y + (room.h - height) / 2);
    draw_->AddImage(imgui::texture_id(texture.id), {x, y}, {x + width, y + height});
    marks(*this, room, texture, parts);
    return true;
}

float Ui::picture_aspect(std::string_view file) const {
    constexpr int kProbe = 128;  // pixels: small enough to cost nothing, large enough to divide
    const Texture texture = textures_.picture({std::string(file), kProbe, kProbe, night(), {}});
    return texture.id == 0 || texture.height == 0
               ? 1
               : static_cast<float>(texture.width) / static_cast<float>(texture.height);
}

bool Ui::paper(Rect room, const std::string& path) {
    const Texture texture = textures_.paper(path);
    if (texture.id == 0) {
        return false;
    }
    draw_->AddImage(imgui::texture_id(texture.id), {room.x, room.y}, {room.right(), room.bottom()});
    return true;
}

bool Ui::chart(Rect room, const ChartData& chart) {
    if (room.w < 1 || room.h < 1) {
        return false;
    }
    const Texture texture = textures_.chart({chart, static_cast<int>(room.w),
                                             static_cast<int>(room.h), sketch(1), night()});
    if (texture.id == 0) {
        return false;
    }
    const float x = std::round(room.x);
    const float y = std::round(room.y);
    const ImVec2 end{x + static_cast<float>(texture.width), y + static_cast<float>(texture.height)};
    draw_->AddImage(imgui::texture_id(texture.id), {x, y}, end);
    return true;
}

}  // namespace holdpin
