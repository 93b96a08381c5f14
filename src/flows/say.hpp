// From codes to sentences in the person's language. Texts stand in content/strings and in the
// rulesets; here they are found and their {placeholders} filled.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "content_types/content.hpp"
#include "flows/page.hpp"

namespace holdpin {

using Args = std::vector<std::pair<std::string_view, std::string>>;

// Every {name} of `pattern` that `args` knows is replaced; what it does not know stays.
std::string fill(std::string_view pattern, const Args& args);

class Say {
  public:
    Say(const Pack& pack, std::string language) : pack_(pack), language_(std::move(language)) {}

    // The text of a key, filled. A key that is not there gives the key: a test finds those.
    std::string operator()(std::string_view key, const Args& args = {}) const;
    const std::string& operator()(const Text& text) const { return text.in(language_); }

    const std::string& language() const { return language_; }
    std::string duty(Duty duty) const;
    std::string hazard(Hazard hazard) const;
    // "Law · OSHA 29 CFR 1910.147(d)" for a class of machine.
    std::string footing(std::string_view id, bool is_truck) const;
    WarningView warning(const Warning& warning) const;
    std::vector<WarningView> warnings(const std::vector<Warning>& all) const;
    // With the names of its parts.
    PictureView picture(const Picture& picture) const;

  private:
    const Pack& pack_;
    std::string language_;
};

}  // namespace holdpin
