// Drives a Stage through the real screens as a person would: taps what is visible, types on the
// keys that are shown, reads what stands there. On a NullGlass for tests, on a window for pictures.
// What cannot be done is an error whose sentence lists what is visible instead. Steps the pointer
// frame by frame, so that it works the same on every ImGui the kiosk is built with.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/clock.hpp"
#include "base/result.hpp"
#include "kiosk/glass.hpp"
#include "kiosk/show.hpp"

namespace holdpin {

class Driver {
  public:
    // The clock passes 16 ms with every frame. Alarms count as heard, unless `out` says otherwise.
    Driver(Glass& glass, Stage& stage, HandClock& clock,
           SoundOut out = [](Sound) { return true; });

    // By label or id. Scrolls a list by its page buttons when the target is not in sight.
    Result<void> tap(std::string_view name);
    // On the keys that are shown; changes between small letters, capitals and digits.
    Result<void> type(std::string_view text);
    Result<void> pin(std::string_view digits) { return type(digits); }
    // What a keyboard or scanner would send, with Enter at the end when asked for.
    void physical(std::string_view text, bool enter);
    // The text, or part of it, is on the screen; thin and no-break spaces count as spaces.
    Result<void> expect(std::string_view text);
    Result<void> refuse(std::string_view text);
    // Writes what is shown as a PNG file.
    Result<void> picture(const std::string& path);

    // Frames until the picture stays the same.
    void settle();
    // Time passes while nobody touches anything.
    void wait(std::int64_t ms);
    // The page may have changed from outside.
    void ask_again();

    // Finger by finger, for tests of touch itself.
    void finger_to(Dot at);
    void finger_down();
    void finger_up();

    std::vector<std::string> audit() const;
    const Recorder& recorder() const { return show_.recorder(); }
    const Page& page() const { return show_.page(); }
    // Everything that can be touched now, in quotation marks.
    std::string visible_targets() const;

  private:
    void frame();
    const Drawn* find(std::string_view name) const;
    Result<void> bring_into_sight(std::string_view name);
    void tap_at(Dot at);
    Result<void> type_letter(const std::string& letter);

    Glass& glass_;
    HandClock& clock_;
    Show show_;
};

}  // namespace holdpin
