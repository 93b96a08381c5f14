// A page on the glass: top strip, body, bottom bar that never moves. The body is one of the screens
// (screens/); the frame owns what all pages share, what physical keys and scanners mean, and the
// reset of UiState when the page changes. Gives back what the person did, at most one thing a
// frame.
#pragma once

#include <optional>

#include "flows/page.hpp"
#include "kiosk/kit.hpp"

namespace holdpin {

// Implemented in screens/: draws the body into ui.area(), which already keeps the margins.
std::optional<Action> draw_body(const Page& page, Ui& ui, UiState& state);

// Actions no button gives. A scanner sent a code (arg) on a page that takes no typing.
inline constexpr const char* kScanAction = "scan";
// While a countdown was shown somebody touched the glass or a key, and it meant nothing else.
inline constexpr const char* kStayAction = "stay";

// A silent alarm is said in the strip and has an edge that comes and goes, each for so long: once
// a second, well below the three flashes a second that may harm (WCAG 2.3.1, from memory).
inline constexpr std::int64_t kFlashMs = 500;

// Between ImGui::NewFrame and ImGui::Render.
std::optional<Action> draw_frame(const Page& page, Ui& ui, UiState& state,
                                 const FrameStart& start);

}  // namespace holdpin
