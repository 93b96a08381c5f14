// Invented pages of every body, in English and Spanish, with the longest texts the content has: for
// the layout audit and for looking at. People, site and times are an invented scenario.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "flows/page.hpp"

namespace holdpin::gallery {

struct Exhibit {
    std::string name;  // "choice-warning"
    Page page;
};

std::vector<Exhibit> exhibits(std::string_view language);

}  // namespace holdpin::gallery
