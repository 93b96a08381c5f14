// The text keyboard. In the order of typewriters where there is width for it: twelve columns for
// text, so that the accents stand beside the letters and the board is four rows high, ten for
// codes. Seven in the order of the alphabet where there is not: an order of ten cannot be kept in
// seven.

#include <algorithm>
#include <span>
#include <string>
#include <vector>

#include "base/text.hpp"
#include "kiosk/imgui_compat.hpp"
#include "kiosk/keys.hpp"
#include "kiosk/typing.hpp"
#include "kiosk/widgets.hpp"

namespace holdpin {

namespace {

using Rows = std::span<const char* const>;

constexpr const char* kWideLower[] = {"qwertyuiopáé", "asdfghjklñíó", "zxcvbnm,.-úü"};
constexpr const char* kWideCapitals[] = {"QWERTYUIOPÁÉ", "ASDFGHJKLÑÍÓ", "ZXCVBNM,.-ÚÜ"};
constexpr const char* kWideDigits[] = {"1234567890()", "-/:;%+=*'\"&@", ".,¿?¡!°€$#ºª"};
constexpr const char* kTenCodes[] = {"1234567890", "QWERTYUIOP", "ASDFGHJKL-", "ZXCVBNM"};
constexpr const char* kSevenLower[] = {"abcdefg", "hijklmn", "ñopqrst",
                                       "uvwxyz,", "áéíóúü.", "¿?¡!-:/"};
constexpr const char* kSevenCapitals[] = {"ABCDEFG", "HIJKLMN", "ÑOPQRST",
                                          "UVWXYZ,", "ÁÉÍÓÚÜ.", "¿?¡!-:/"};
constexpr const char* kSevenDigits[] = {"1234567", "890-/:;", "()%+=*'",
                                        "\"&@#_<>", ".,¿?¡!°", "€$ºª|  "};
constexpr const char* kSevenCodes[] = {"1234567", "890-ABC", "DEFGHIJ",
                                       "KLMNOPQ", "RSTUVWX", "YZ"};

constexpr int kNarrow = 7;

int columns_for(const Ui& ui, float width, bool codes) {
    const int wide = codes ? 10 : 12;
    const auto across = static_cast<float>(wide);
    return width >= ui.mm(across * kKeyMm + (across - 1) * kDeskGapMm) ? wide : kNarrow;
}

Rows rows_of(int columns, KeyLayer layer, bool codes) {
    const bool wide = columns > kNarrow;
    if (codes) {
        return wide ? Rows(kTenCodes) : Rows(kSevenCodes);
    }
    switch (layer) {
        case KeyLayer::lower: return wide ? Rows(kWideLower) : Rows(kSevenLower);
        case KeyLayer::capitals: return wide ? Rows(kWideCapitals) : Rows(kSevenCapitals);
        case KeyLayer::digits: return wide ? Rows(kWideDigits) : Rows(kSevenDigits);
    }
    return {};
}

struct Board {
    Ui& ui;
    const KeyboardSpec& spec;
    float x;
    float y;
    float width;   // of a key
    float height;
    float gap;
    int columns;

    Rect at(int column, int row, int span = 1) const {
        const auto across = static_cast<float>(span);
        return {x + static_cast<float>(column) * (width + gap),
                y + static_cast<float>(row) * (height + gap), across * width + (across - 1) * gap,
                height};
    }
    void type(std::string_view letter) const {
        type_text(ui.state(), letter, spec.codes, spec.most);
    }
};

Board board_in(Ui& ui, Rect rect, const KeyboardSpec& spec) {
    const int columns = columns_for(ui, rect.w, spec.codes);
    const auto rows = static_cast<float>(rows_of(columns, KeyLayer::lower, spec.codes).size()) +
                      (spec.codes ? 0 : 1);
    const auto across = static_cast<float>(columns);
    const float gap = ui.mm(kDeskGapMm);
    const float most = ui.mm(kOperatorTargetMm);
    const float width = std::min(most, (rect.w - gap * (across - 1)) / across);
    const float height = std::clamp((rect.h - gap * (rows - 1)) / rows, ui.mm(kKeyMm), most);
    const float whole = across * width + (across - 1) * gap;
    return {ui, spec, rect.x + (rect.w - whole) / 2, rect.y, width, height, gap, columns};
}

void letter_rows(const Board& board) {
    UiState& state = board.ui.state();
    const Rows rows = rows_of(board.columns, state.layer, board.spec.codes);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        int column = 0;
        for (const std::string& letter : letters_of(rows[i])) {
            const Rect rect = board.at(column++, static_cast<int>(i));
            if (letter == " " ||
                !key(board.ui, rect, "key:" + letter, letter, kKeyMm, Type::heading)) {
                continue;
            }
            board.type(letter);
            if (state.layer == KeyLayer::capitals) {
                state.layer = KeyLayer::lower;  // a capital starts a word; the rest is small
            }
        }
    }
}

void backspace_key(const Board& board, Rect rect) {
    if (icon_key(board.ui, rect, {.id = "key:back", .icon = backspace_icon, .min_mm = kKeyMm})) {
        take_back(board.ui.state());
    }
}

void capitals_key(const Board& board, Rect rect) {
    UiState& state = board.ui.state();
    const bool on = state.layer == KeyLayer::capitals;
    if (icon_key(board.ui, rect,
                 {.id = "key:capitals", .icon = capitals_icon, .min_mm = kKeyMm, .on = on})) {
        state.layer = on ? KeyLayer::lower : KeyLayer::capitals;
    }
}

void control_row(const Board& board, int row) {
    UiState& state = board.ui.state();
    const int space = board.columns - 5;
    capitals_key(board, board.at(0, row));
    const bool digits = state.layer == KeyLayer::digits;
    if (key(board.ui, board.at(1, row, 2), "key:digits", digits ? "abc" : "123", kKeyMm,
            Type::body_bold)) {
        state.layer = digits ? KeyLayer::lower : KeyLayer::digits;
    }
    if (key(board.ui, board.at(3, row, space), "key: ", board.spec.space_label, kKeyMm,
            Type::body)) {
        board.type(" ");
    }
    backspace_key(board, board.at(3 + space, row, 2));
}

}  // namespace

float keyboard_height(const Ui& ui, float width, bool codes) {
    const int columns = columns_for(ui, width, codes);
    const auto rows = static_cast<float>(rows_of(columns, KeyLayer::lower, codes).size()) +
                      (codes ? 0 : 1);
    return ui.mm(rows * kKeyMm + (rows - 1) * kDeskGapMm);
}

void keyboard(Ui& ui, Rect rect, const KeyboardSpec& spec) {
    const Board board = board_in(ui, rect, spec);
    const int rows = static_cast<int>(rows_of(board.columns, KeyLayer::lower, spec.codes).size());
    letter_rows(board);
    if (spec.codes) {
        backspace_key(board, board.at(board.columns - 2, rows - 1, 2));
    } else {
        control_row(board, rows);
    }
    for (int backspaces = ui.take_backspaces(); backspaces > 0; --backspaces) {
        take_back(ui.state());
    }
    for (const std::string& letter : letters_of(ui.take_typed())) {
        board.type(letter);
    }
}

void text_field(Ui& ui, Rect rect, const std::string& hint) {
    ui.panel(rect);
    const Rect room = rect.inset(ui.sketch(18), ui.sketch(8));
    const std::string& typed = ui.state().typed;
    if (typed.empty()) {
        ui.fitted_top(room, hint, {.type = Type::body, .ink = Token::ink_2});
        return;
    }
    ui.fitted_top(room, typed, {.type = Type::mono});
}

}  // namespace holdpin
