// One function for each body of a page: draws it into ui.area() with the kit and gives back what
// the person did. Landscape: picture left, words right; portrait: picture above. Sizes step down
// before anything is clipped. The screens decide nothing; what they show was decided by a flow.
#pragma once

#include <optional>

#include "flows/page.hpp"
#include "kiosk/kit.hpp"

namespace holdpin::screens {

std::optional<Action> draw(const FloorBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const HoldsBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const HandedBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const StepBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const ChoiceBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const NumberBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const PinBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const TextBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const ListBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const GridBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const SheetBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const MessageBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const EstimateBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const ProgressBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const TagBody& body, const Page& page, Ui& ui);
std::optional<Action> draw(const PaperBody& body, const Page& page, Ui& ui);

}  // namespace holdpin::screens
