// QR codes on the glass.
#include <algorithm>
#include <cmath>

#include "kiosk/imgui_compat.hpp"
#include "kiosk/kit_extra.hpp"
#include "picture/qr.hpp"

namespace holdpin {

// Dark on white by night too: few scanners read the opposite. Whole pixels, so that no module is
// blurred.
void qr_square(Ui& ui, Rect room, const std::string& text) {
    const auto code = qr_code(text);
    if (!code) return;
    const int across = code.value().width + 2 * kQrQuiet;
    const float module = std::floor(std::min(room.w, room.h) / static_cast<float>(across));
    const float side = module * static_cast<float>(across);
    const Rect square{std::floor(room.middle().x - side / 2), std::floor(room.y), side, side};
    ui.fill(square, Token::white);
    for (int y = 0; y < code.value().width; ++y) {
        for (int x = 0; x < code.value().width; ++x) {
            if (!code.value().at(x, y)) continue;
            const float left = square.x + module * static_cast<float>(x + kQrQuiet);
            const float top = square.y + module * static_cast<float>(y + kQrQuiet);
            ui.draw().AddRectFilled({left, top}, {left + module, top + module},
                                    ui.packed(Token::black));
        }
    }
}

}  // namespace holdpin
