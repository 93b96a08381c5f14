// Judges one recorded frame by the house rules for layout: targets large enough, inside the display
// and clear of each other; no text cut off, no letter without a glyph, contrast of 7:1 (WCAG 2
// level AAA); the main action at least 60 mm wide. Each fault is one sentence; none is good.
// It sees what the kit recorded, not pictures.
#pragma once

#include <string>
#include <vector>

#include "kiosk/recorder.hpp"
#include "kiosk/scale.hpp"

namespace holdpin {

inline constexpr float kLeastContrast = 7.0F;

std::vector<std::string> audit(const Recorder& recorder, Scale scale);

}  // namespace holdpin
