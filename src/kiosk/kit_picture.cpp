// Pictures: a texture centred in its room, dashed frames around the parts in question and their
// names beside them. A name goes to the side of its frame that has more room.

#include <algorithm>
#include <cmath>

#include "kiosk/imgui_compat.hpp"
#include "kiosk/kit.hpp"

namespace holdpin {

namespace {

void dashed_line(Ui& ui, Point from, Point to, float thickness) {
    const float length = std::hypot(to.x - from.x, to.y - from.y);
    const float dash = ui.sketch(11);
    const float gap = ui.sketch(6);
    for (float at = 0; at < length; at += dash + gap) {
        const float end = std::min(length, at + dash);
        const auto along = [&](float way) {
            return Point{from.x + (to.x - from.x) * way / length,
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

// Above the frame when there is room, below otherwise, moved so that it stays inside the room; on
// a ground of its own, because lines of the picture may run there.
void name_beside(Ui& ui, Rect room, Rect frame, const std::string& name) {
    const TextSpec spec{.type = Type::small_bold, .ink = Token::touch};
    const float pad = ui.sketch(6);
    const float width = ui.text_width(name, spec.type);
    const float height = ui.line_height(spec.type);
    const bool above = frame.y - height - 2 * pad >= room.y;
    const float y = above ? frame.y - height - pad - ui.sketch(2) : frame.bottom() + pad;
    const float rightmost = std::max(room.x, room.right() - width - pad);
    const float x = std::clamp(frame.x, std::min(room.x + pad, rightmost), rightmost);
    ui.fill({x - pad, y, width + 2 * pad, height}, Token::plate, ui.sketch(4));
    ui.text({x, y}, name, spec);
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
    for (std::size_t i = 0; i < parts.size() && i < texture.parts.size(); ++i) {
        const PartBox& box = texture.parts[i];
        const Rect tight{x + static_cast<float>(box.x), y + static_cast<float>(box.y),
                         static_cast<float>(box.width), static_cast<float>(box.height)};
        const Rect frame = common_part({tight.x - sketch(8), tight.y - sketch(8),
                                        tight.w + sketch(16), tight.h + sketch(16)},
                                       room);
        dashed_frame(*this, frame);
        name_beside(*this, room, frame, parts[i].name);
    }
    return true;
}

}  // namespace holdpin
