// Which screen draws which body.
#include "kiosk/frame.hpp"
#include "kiosk/screens/screens.hpp"

namespace holdpin {

std::optional<Action> draw_body(const Page& page, Ui& ui, UiState&) {
    return std::visit([&](const auto& body) { return screens::draw(body, page, ui); }, page.body);
}

}  // namespace holdpin
