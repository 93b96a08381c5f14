// Round sheets: what was read at each point of a signed round, by whom and when, in the words that
// stood on the screen then. The rounds of one machine in one month make one document.
#pragma once

#include <string>
#include <vector>

#include "binder/papers_voice.hpp"

namespace holdpin {

// `rounds`: entries `round-signed` of one machine, in order.
Result<Paper> rounds_paper(const BinderMaterial& material, const NameHashes& names,
                           const std::vector<Entry>& rounds);

// The round as it was shown: by its digest, else as it is now, else nothing.
std::optional<Round> round_shown(const BinderMaterial& material, const std::string& digest,
                                 const std::string& id);

}  // namespace holdpin
