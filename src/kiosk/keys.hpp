// Typing on glass. Pads write into UiState::typed and also take what a physical keyboard or a
// scanner sends; the main action of the page carries the result. Keys act on release like
// everything else.
#pragma once

#include <cstddef>
#include <string>

#include "flows/page.hpp"
#include "kiosk/kit.hpp"

namespace holdpin {

// Ten digits and backspace, keys of at least 20 mm; `most` digits. The field shows discs.
void pin_field(Ui& ui, Rect rect, int most);
void pin_pad(Ui& ui, Rect rect, int most);

// Ten digits, backspace, and in the twelfth place a decimal point, a sign or nothing. At most nine
// characters, one point.
enum class LastKey { none, point, sign };
void number_field(Ui& ui, Rect rect, const std::string& unit);
void number_pad(Ui& ui, Rect rect, LastKey last);
// In place of digits: the marks of a gauge, at most twelve; one touch answers. The one
// that stands already has a thick edge. Returns the one that was touched, or nothing.
std::string mark_pad(Ui& ui, Rect rect, const NumberBody& body);

// Least sizes, to lay a page out around them.
float pad_width(const Ui& ui);   // three keys of 20 mm
float pad_height(const Ui& ui);  // four keys of 20 mm

// Letters with Spanish, capitals, digits and signs; keys of 15 mm, gaps of 2; twelve columns (ten
// for codes), seven in portrait. `codes`: capitals, digits and a dash only.
struct KeyboardSpec {
    bool codes = false;
    std::size_t most = 200;  // characters
    std::string space_label = "space";
};
void text_field(Ui& ui, Rect rect, const std::string& hint);
void keyboard(Ui& ui, Rect rect, const KeyboardSpec& spec);
float keyboard_height(const Ui& ui, float width, bool codes);

}  // namespace holdpin
