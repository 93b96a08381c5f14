#include "kiosk/typing.hpp"

#include <cctype>
#include <string>

#include "base/text.hpp"

namespace holdpin {

namespace {

constexpr std::size_t kMostOfNumber = 9;

bool is_digit(char letter) {
    return letter >= '0' && letter <= '9';
}

bool is_code_letter(char letter) {
    return is_digit(letter) || (letter >= 'A' && letter <= 'Z') || letter == '-' || letter == ':';
}

}  // namespace

void type_pin(UiState& state, char letter, int most) {
    if (is_digit(letter) && state.typed.size() < static_cast<std::size_t>(most)) {
        state.typed += letter;
        state.untouched = false;
    }
}

void type_number(UiState& state, char letter, bool decimal) {
    if (!is_digit(letter) && !(decimal && letter == '.')) {
        return;
    }
    if (state.untouched) {
        state.typed.clear();
        state.untouched = false;
    }
    const bool has_point = state.typed.find('.') != std::string::npos;
    if (state.typed.size() >= kMostOfNumber || (letter == '.' && has_point)) {
        return;
    }
    if (letter == '.' && state.typed.empty()) {
        state.typed = "0";
    }
    state.typed += letter;
}

void turn_sign(UiState& state) {
    if (state.untouched) state.typed.clear();
    state.untouched = false;
    if (state.typed.starts_with('-')) {
        state.typed.erase(0, 1);
    } else {
        state.typed.insert(0, 1, '-');
    }
}

void type_text(UiState& state, std::string_view letter, bool codes, std::size_t most) {
    if (letter.empty() || code_points(state.typed) >= most) {
        return;
    }
    if (!codes) {
        state.typed += letter;
    } else {
        const auto upper = static_cast<char>(std::toupper(static_cast<unsigned char>(letter[0])));
        if (letter.size() != 1 || !is_code_letter(upper)) {
            return;
        }
        state.typed += upper;
    }
    state.untouched = false;
}

void take_back(UiState& state) {
    drop_last_code_point(state.typed);
    state.untouched = false;
}

}  // namespace holdpin
