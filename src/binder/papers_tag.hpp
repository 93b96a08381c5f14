// The tag that mirrors a hold on the machine itself: one page to be fixed on the start control. The
// six characters of its code stand more than 2 cm high and are readable at 1.5 m (1910.145(f) asks
// for five feet); its words stand in the language of the site and in English. Draws only: who
// issues codes, and which characters they are made of, is decided elsewhere.
#pragma once

#include <string>

#include "base/result.hpp"
#include "binder/papers_voice.hpp"

namespace holdpin {

struct TagPaper {
    std::string code;      // six characters
    std::string machine;   // plate
    std::string reason;    // in the language of the site
    std::string reason_english;
    std::string date;      // in the language of the site
    std::string by;        // who, shortened; may be empty
    std::int64_t entry = 0;
    std::int64_t at_ms = 0;
};

Result<std::string> tag_pdf(const TagPaper& tag, const Content& content);

}  // namespace holdpin
