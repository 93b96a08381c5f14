// Shows a Stage: keeps its page, draws it frame after frame, hands over what the person did. The
// window and the driver both show through this; neither decides anything. Asks the stage for its
// page after every action, when the page's own time has come, and when told to.
#pragma once

#include <cstdint>
#include <functional>
#include <utility>

#include "base/clock.hpp"
#include "flows/page.hpp"
#include "kiosk/kit.hpp"
#include "kiosk/ui_state.hpp"

namespace holdpin {

using SoundOut = std::function<bool(Sound)>;

class Show {
  public:
    Show(Stage& stage, const Clock& clock, const Fonts& fonts, TextureSource& textures);

    // One frame, between ImGui::NewFrame and ImGui::Render.
    void frame(float width, float height);
    void ask_again() { stale_ = true; }
    // Sounds each time a page with an alarm is made; says whether it can be heard. Without one, or
    // where it cannot, the glass says that it is silent, and flashes.
    void sound_with(SoundOut out) { sound_out_ = std::move(out); }

    const Page& page() const { return page_; }
    const Recorder& recorder() const { return ui_.recorder(); }
    // More frames are needed though nobody touched anything.
    bool wants_frame() const { return ui_.wants_frame() || acted_; }
    // Milliseconds until the page wants to be looked at again; at most `most`.
    std::int64_t wait_ms(std::int64_t most) const;

  private:
    Stage& stage_;
    const Clock& clock_;
    Ui ui_;
    UiState state_;
    Page page_;
    SoundOut sound_out_;
    bool silent_ = false;
    bool stale_ = true;
    bool acted_ = false;
};

}  // namespace holdpin
