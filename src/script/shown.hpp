// What a page shows and what can be touched on it, as plain lists.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "flows/page.hpp"

namespace holdpin {

struct PageTarget {
    std::string id;
    std::string label;
    bool enabled = true;
    std::string why_not;
    bool main = false;
};

std::vector<std::string> texts_of(const Page& page);
std::vector<PageTarget> targets_of(const Page& page);
// By its id, else by its label; null: there is none.
const PageTarget* find_target(const std::vector<PageTarget>& targets, const std::string& name);

// Thin and no-break spaces as plain ones, so that a script can be typed on any keyboard.
std::string plain_spaces(std::string_view text);
bool is_shown(const std::vector<std::string>& texts, std::string_view wanted);

}  // namespace holdpin
