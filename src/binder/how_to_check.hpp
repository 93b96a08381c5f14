// HOW-TO-CHECK.md: how a stranger checks a binder with sha256sum, openssl and a short script that
// is printed in it. The script finds whatever `holdpin binder check` finds in sums, seals, entries.
#pragma once

#include <string>

namespace holdpin {

struct HowToFacts {
    std::string site;
    std::string kiosk;
    std::string entries;
    std::string purged;
    std::string root;
    std::string sealed;  // when, and over how many
    std::string made;
    std::string scope;   // what the tables are about
};
std::string how_to_check(const HowToFacts& facts);
// CUSTODY.md: a page to be printed and filled in by hand, as the binder goes from hand to hand.
std::string custody_page(const HowToFacts& facts);

}  // namespace holdpin
