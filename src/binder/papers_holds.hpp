// What held a machine and how it came back: each finding with what was decided, repaired, looked at
// again and signed because of it, in order. The findings of one machine in one year make one
// document, so that it does not grow with the years.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "binder/papers_voice.hpp"

namespace holdpin {

// The finding itself first, then what answers it.
using FindingChain = std::vector<Entry>;

// The findings of one machine in one year, each with the numbers of its chain.
struct FindingYear {
    std::string machine;
    std::string year;
    std::map<std::int64_t, std::vector<std::int64_t>> chains;
};

Result<Paper> holds_paper(const BinderMaterial& material, const NameHashes& names,
                          const FindingYear& year);

}  // namespace holdpin
