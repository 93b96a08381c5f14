// What a letter does to what is being typed. Pure: no drawing. The first letter replaces a value
// that stood there; taking back edits it instead.
#pragma once

#include <cstddef>
#include <string_view>

#include "kiosk/ui_state.hpp"

namespace holdpin {

void type_pin(UiState& state, char letter, int most);
void type_number(UiState& state, char letter, bool decimal);
// Below zero and back again.
void turn_sign(UiState& state);
// `letter` is one code point. Codes take capitals, digits and a dash; a small letter becomes one.
void type_text(UiState& state, std::string_view letter, bool codes, std::size_t most);
void take_back(UiState& state);

}  // namespace holdpin
