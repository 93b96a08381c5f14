#include "kiosk/kit.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "kiosk/imgui_compat.hpp"

namespace holdpin {

namespace {

ImVec2 vec(Dot p) {
    return {p.x, p.y};
}

constexpr float kTrembleMm = 2;  // a finger that stays within this is not dragging

}  // namespace

Ui::Ui(const Fonts& fonts, TextureSource& textures)
    : fonts_(fonts), textures_(textures), scale_(fonts.scale()) {}

// ---- one frame ------------------------------------------------------------------------------

void Ui::begin(const FrameStart& start, UiState& state) {
    start_ = start;
    state_ = &state;
    recorder_.display = {0, 0, start.width, start.height};
    recorder_.drawn.clear();
    surfaces_.clear();
    area_ = recorder_.display;
    scroll_.tiles = 0;
    wants_frame_ = false;
    draw_ = imgui::begin_root(start.width, start.height);
    sample_pointer();
    sample_keys();
    fill(display(), Token::ground);
}

void Ui::end() {
    if (pointer_.released) {
        state_->pressed.clear();
        scroll_.held = false;
    }
    ImGui::End();
}

std::int64_t Ui::elapsed_ms() const {
    return std::max<std::int64_t>(0, start_.mono_ms - state_->shown_at_ms);
}

float Ui::motion(std::int64_t duration_ms) {
    if (!start_.motion || elapsed_ms() >= duration_ms) {
        return 1;
    }
    wants_frame_ = true;
    return static_cast<float>(elapsed_ms()) / static_cast<float>(duration_ms);
}

void Ui::sample_pointer() {
    const ImGuiIO& io = ImGui::GetIO();
    const bool was_down = pointer_.down;
    pointer_.at = {io.MousePos.x, io.MousePos.y};
    pointer_.down = io.MouseDown[0];
    pointer_.pressed = pointer_.down && !was_down;
    pointer_.released = !pointer_.down && was_down;
    finger_came_ = pointer_.pressed;
    if (pointer_.pressed) {
        pointer_.pressed_at = pointer_.at;
        pointer_.dragging = false;
        state_->pressed.clear();
    }
    const float moved = std::hypot(pointer_.at.x - pointer_.pressed_at.x,
                                   pointer_.at.y - pointer_.pressed_at.y);
    if (was_down && moved > mm(kTrembleMm)) {
        pointer_.dragging = true;
    }
}

void Ui::forget_finger() {
    pointer_.pressed = false;
    pointer_.pressed_at = {-1e6F, -1e6F};
}

void Ui::sample_keys() {
    const ImGuiIO& io = ImGui::GetIO();
    typed_now_.clear();
    for (const ImWchar letter : io.InputQueueCharacters) {
        const unsigned code = letter;
        if (code < 0x20 || code == 0x7F) {
            continue;
        }
        if (code < 0x80) {
            typed_now_ += static_cast<char>(code);
        } else if (code < 0x800) {
            typed_now_ += static_cast<char>(0xC0 | code >> 6);
            typed_now_ += static_cast<char>(0x80 | (code & 0x3F));
        } else {
            typed_now_ += static_cast<char>(0xE0 | code >> 12);
            typed_now_ += static_cast<char>(0x80 | (code >> 6 & 0x3F));
            typed_now_ += static_cast<char>(0x80 | (code & 0x3F));
        }
    }
    enter_now_ = imgui::key_pressed(imgui::Key::enter);
    backspaces_now_ = imgui::key_pressed(imgui::Key::backspace) ? 1 : 0;
    typed_ = !typed_now_.empty() || enter_now_ || backspaces_now_ > 0;
}

std::string Ui::take_typed() {
    return std::exchange(typed_now_, {});
}

bool Ui::take_enter() {
    return std::exchange(enter_now_, false);
}

int Ui::take_backspaces() {
    return std::exchange(backspaces_now_, 0);
}

// ---- surfaces -------------------------------------------------------------------------------

std::uint32_t Ui::packed(Token token) const {
    const Color color = color_of(token, night());
    return IM_COL32(color.r, color.g, color.b, 255);
}

void Ui::fill(Rect rect, Token token, float radius) {
    draw_->AddRectFilled({rect.x, rect.y}, {rect.right(), rect.bottom()}, packed(token), radius);
    surfaces_.push_back({rect, token});
}

void Ui::edge(Rect rect, Token token, float thickness, float radius) {
    // ImDrawList::AddRect moves its corners by half a pixel; here the edge ends where a fill does.
    const Rect middle = rect.inset(thickness / 2);
    draw_->PathRect({middle.x, middle.y}, {middle.right(), middle.bottom()},
                    std::max(0.0F, radius - thickness / 2));
    draw_->PathStroke(packed(token), ImDrawFlags_Closed, thickness);
}

void Ui::panel(Rect rect, Token ground, Token edge_token) {
    fill(rect, ground, sketch(10));
    edge(rect, edge_token, sketch(2), sketch(10));
}

void Ui::hairline(Dot from, Dot to, Token token) {
    draw_->AddLine(vec(from), vec(to), packed(token), sketch(1.5F));
}

void Ui::line(Dot from, Dot to, Token token, float thickness) {
    draw_->AddLine(vec(from), vec(to), packed(token), thickness);
}

void Ui::disc(Dot middle, float radius, Token token) {
    draw_->AddCircleFilled(vec(middle), radius, packed(token));
}

void Ui::ring(Dot middle, float radius, Token token, float thickness) {
    draw_->AddCircle(vec(middle), radius, packed(token), 0, thickness);
}

Token Ui::behind(Dot at) const {
    for (auto surface = surfaces_.rbegin(); surface != surfaces_.rend(); ++surface) {
        if (surface->rect.contains(at)) {
            return surface->token;
        }
    }
    return Token::ground;
}

// ---- touch ----------------------------------------------------------------------------------

Tap Ui::target(Rect rect, const Target& target) {
    const Rect visible = visible_part(rect);
    Drawn drawn;
    drawn.id = target.id;
    drawn.label = target.label;
    drawn.rect = rect;
    drawn.visible = visible;
    drawn.scrolls = scroll_.open;
    drawn.target = true;
    drawn.enabled = target.enabled;
    drawn.main = target.main;
    drawn.min_mm = target.min_mm;
    recorder_.drawn.push_back(std::move(drawn));

    const bool inside = visible.contains(pointer_.at);
    if (pointer_.pressed && inside) {
        state_->pressed = target.id;
    }
    const bool mine = state_->pressed == target.id && visible.contains(pointer_.pressed_at);
    if (scroll_.open && scroll_.held && pointer_.dragging) {
        return {};  // the finger is moving the list
    }
    Tap tap;
    tap.down = mine && inside && pointer_.down && target.enabled;
    if (mine && inside && pointer_.released) {
        tap.tapped = target.enabled;
        state_->notice = target.enabled ? std::string() : target.why_not;
    }
    return tap;
}

Rect Ui::visible_part(Rect rect) const {
    return common_part(rect, scroll_.open ? scroll_.room : recorder_.display);
}

}  // namespace holdpin
