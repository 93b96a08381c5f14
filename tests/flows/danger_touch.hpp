// Hands that touch the kiosk at random, with a taste for one kind of danger work: what they look
// for on which pages. Now and then they send what no page offers, as a faulty or hostile screen
// would.
#pragma once

#include <string>
#include <vector>

#include "shop.hpp"

namespace holdpin {

// On a page whose id contains `page`: what is looked for, one at random. "reply:" is the first
// target that begins so, "machine:*" any of those.
struct Want {
    const char* page;
    std::vector<const char*> targets;
};

struct Taste {
    std::vector<const char*> badges;  // of those who come; one named twice comes twice as often
    std::vector<Want> wants;          // the first that fits the page
    std::uint32_t hostile = 12;       // one in so many touches is of something that is not there
};

struct Touch {
    Page page;  // that was touched
    Action action;
    bool offered = false;
};
// Chooses; touches nothing yet.
Touch next_touch(Shop& shop, const Taste& taste);

}  // namespace holdpin
