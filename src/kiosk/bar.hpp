// The two bands every page has: the strip at the top and the bar at the bottom.
#pragma once

#include <optional>

#include "flows/page.hpp"
#include "kiosk/kit.hpp"

namespace holdpin {

float strip_height(const Ui& ui);
float bar_height(const Ui& ui);

void draw_strip(const Page& page, Ui& ui, Rect rect);
// In its place while an alarm stands that nothing sounds.
void draw_silent_strip(const Page& page, Ui& ui, Rect rect);
// The button touched, if any: the action carries its id and nothing else.
std::optional<Action> draw_bar(const Page& page, Ui& ui, Rect rect);
// One or two lines over the lower end of the body: why a grey button did nothing.
// Returns where it stands.
Rect draw_notice(Ui& ui, Rect body, const std::string& notice);

}  // namespace holdpin
