#include "cli/driven_hands.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"

namespace holdpin {

DrivenHands::DrivenHands(World world, HandClock& clock, Glass& glass, Options options)
    : world_(std::move(world)), clock_(clock), glass_(glass), options_(std::move(options)) {
    power_cut();
}

Page DrivenHands::page() { return driver_->page(); }

std::vector<std::string> DrivenHands::shown() {
    std::vector<std::string> texts;
    for (const Drawn& drawn : driver_->recorder().drawn) {
        if (!drawn.text.empty()) texts.push_back(drawn.text);
    }
    return texts;
}

Result<void> DrivenHands::judged() const {
    if (!options_.audit) return {};
    const auto faults = driver_->audit();
    if (faults.empty()) return {};
    return Error{ErrorKind::invalid, "the layout has faults: " + joined(faults, "; "), "", ""};
}

Result<void> DrivenHands::tap(const std::string& target) {
    app_->tick();
    driver_->ask_again();
    TRY(driver_->tap(target));
    driver_->settle();
    TRY(judged());
    return picture_of_new_page();
}

// "007-round-SW-14-brake": in the order in which they were met.
Result<void> DrivenHands::picture_of_new_page() {
    const std::string& id = driver_->page().id;
    if (!options_.every_page || id == pictured_) return {};
    pictured_ = id;
    std::string name = fmt::format("{:03}-{}", ++pages_, id);
    std::replace(name.begin(), name.end(), '/', '-');
    return picture(name);
}

Result<void> DrivenHands::type(const std::string& text) { return driver_->type(text); }

Result<void> DrivenHands::picture(const std::string& name) {
    if (options_.out.empty()) return {};
    driver_->settle();
    TRY(driver_->picture(options_.out + "/" + name + ".png"));
    ++pictures_;
    return {};
}

void DrivenHands::power_cut() {
    driver_.reset();
    app_ = std::make_unique<App>(world_);
    app_->tick();
    driver_.emplace(glass_, *app_, clock_,
                    [silent = options_.silent](Sound) { return !silent; });
    pictured_.clear();
}

void DrivenHands::time_passed() {
    app_->tick();
    driver_->ask_again();
    driver_->settle();
}

}  // namespace holdpin
