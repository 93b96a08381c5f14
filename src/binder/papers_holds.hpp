// What held a machine and how it came back: each finding with what was decided, repaired, looked at
// again and signed because of it, in order. One document a machine.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "binder/papers_voice.hpp"

namespace holdpin {

// The finding itself first, then what answers it.
using FindingChain = std::vector<Entry>;

Result<Paper> holds_paper(const BinderMaterial& material, const NameHashes& names,
                          const std::string& machine, const std::vector<FindingChain>& chains);

}  // namespace holdpin
