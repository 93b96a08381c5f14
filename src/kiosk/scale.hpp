// Millimetres on the glass in pixels of the display. Fingers and eyes are the same on every
// display, so every size on a screen is stated in millimetres or in units of the sketches, which
// were drawn at 5.9 px to the millimetre. The sizes of targets are house rules of this project.
#pragma once

namespace holdpin {

struct Scale {
    float px_per_mm = 5.9F;
    float growth = 1;  // of what the sketches measure: a large display hangs further from the eye

    float mm(float millimetres) const { return millimetres * px_per_mm; }
    float to_mm(float pixels) const { return pixels / px_per_mm; }
    // A length measured in a sketch (1280 by 800 at 5.9 px to the millimetre).
    float sketch(float pixels) const { return pixels * growth * px_per_mm / 5.9F; }
};

inline constexpr float kOperatorTargetMm = 20;  // every target of an operator's screen, height
inline constexpr float kDeskTargetMm = 12;
inline constexpr float kKeyMm = 15;             // keys of the text keyboard
inline constexpr float kPageTileMm = 20;        // width of the two tiles that turn a list by a page
inline constexpr float kOperatorGapMm = 4;
inline constexpr float kDeskGapMm = 2;
inline constexpr float kMainActionMm = 60;      // width of the main action
inline constexpr float kPlateCapitalsMm = 15;   // plate number on the refused and released screen
inline constexpr float kStateCapitalsMm = 6;    // state word on the floor

// The scale of a display of known pixels when nothing else is configured: 5.9 for a 10.1" tablet
// (1280 by 800 either way up), 5.56 for a 15.6" display of 1920 by 1080, whose words are larger.
inline Scale usual_scale(int width, int height) {
    const int longer = width > height ? width : height;
    return longer >= 1900 ? Scale{5.56F, 1.2F} : Scale{5.9F};
}

}  // namespace holdpin
