#include "script/hands.hpp"
#include "script/shown.hpp"

namespace holdpin {
namespace {

// What the page sends when nothing was typed on it.
std::string start_of(const Page& page) {
    if (const auto* number = std::get_if<NumberBody>(&page.body)) return number->start;
    if (const auto* text = std::get_if<TextBody>(&page.body)) return text->start;
    return {};
}

bool takes_typing(const Page& page) {
    return std::holds_alternative<NumberBody>(page.body) ||
           std::holds_alternative<PinBody>(page.body) ||
           std::holds_alternative<TextBody>(page.body);
}

}  // namespace

PaperHands::PaperHands(World world)
    : world_(std::move(world)), app_(std::make_unique<App>(world_)) {}

// Each look is a turn of the kiosk's loop.
Page PaperHands::page() {
    app_->tick();
    return app_->page();
}

std::vector<std::string> PaperHands::shown() { return texts_of(page()); }

Result<void> PaperHands::tap(const std::string& target) {
    const Page page = this->page();
    const auto targets = targets_of(page);
    const PageTarget* found = find_target(targets, target);
    if (found == nullptr) {
        return Error{ErrorKind::absent, "there is no \"" + target + "\" to tap", "", ""};
    }
    if (!found->enabled) {
        return Error{ErrorKind::refused, "\"" + target + "\" is grey: " + found->why_not, "", ""};
    }
    const std::string typed = typed_.empty() ? start_of(page) : typed_;
    app_->act({found->id, found->main ? typed : ""});
    typed_.clear();
    return {};
}

Result<void> PaperHands::type(const std::string& text) {
    if (!takes_typing(page())) {
        return Error{ErrorKind::refused, "this page takes no typing", "", ""};
    }
    typed_ += text;
    return {};
}

void PaperHands::power_cut() {
    typed_.clear();
    app_.reset();
    app_ = std::make_unique<App>(world_);
}

}  // namespace holdpin
