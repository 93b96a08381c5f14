// Round sheets: what was read at each point of a signed round, by whom and when, in the words that
// stood on the screen then. The rounds of one machine in one month make one document.
#pragma once

#include <string>
#include <vector>

#include "binder/papers_voice.hpp"

namespace holdpin {

// The rounds of one machine in one month, by number; they are long, and read one at a time.
struct RoundMonth {
    std::string machine;
    std::vector<std::int64_t> entries;   // `round-signed`, in order
    std::vector<std::string> languages;  // in which they were signed, beside English
    Date first;
    std::int64_t last_ms = 0;
};

Result<Paper> rounds_paper(const BinderMaterial& material, const NameHashes& names,
                           const RoundMonth& month);

// The round as it was shown: by its digest, else as it is now, else nothing.
std::optional<Round> round_shown(const BinderMaterial& material, const std::string& digest,
                                 const std::string& id);

}  // namespace holdpin
