#include "kiosk/show.hpp"

#include <algorithm>

#include "kiosk/frame.hpp"

namespace holdpin {

Show::Show(Stage& stage, const Clock& clock, const Fonts& fonts, TextureSource& textures)
    : stage_(stage), clock_(clock), ui_(fonts, textures) {}

void Show::frame(float width, float height) {
    const bool due = page_.next_change_ms > 0 && clock_.now_ms() >= page_.next_change_ms;
    if (stale_ || due) {
        page_ = stage_.page();
        stale_ = false;
        const bool sounds = page_.sound != Sound::none;
        silent_ = sounds && !(sound_out_ && sound_out_(page_.sound));
    }
    const FrameStart start{width, height, clock_.mono_ms(), page_.night, page_.motion,
                           silent_};
    const std::optional<Action> action = draw_frame(page_, ui_, state_, start);
    acted_ = action.has_value();
    if (action) {
        stage_.act(*action);
        stale_ = true;
    }
}

std::int64_t Show::wait_ms(std::int64_t most) const {
    if (silent_) {
        most = std::min(most, kFlashMs - clock_.mono_ms() % kFlashMs);
    }
    if (page_.next_change_ms <= 0) {
        return most;
    }
    return std::clamp<std::int64_t>(page_.next_change_ms - clock_.now_ms(), 0, most);
}

}  // namespace holdpin
