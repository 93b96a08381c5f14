// A file of content or of a site, by its first byte one kind or another: read, proofread and, if it
// has no fault, frozen. There is always an answer, and a fault always has its words.
#include <array>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "content/content.hpp"

namespace {

constexpr std::array<const char*, 8> kNames{
    "rounds/x.toml", "guides/x.toml",  "quizzes/x.toml",       "classes/x.toml",
    "sheets/x.toml", "strings/x.toml", "rulesets/holds.toml", "rulesets/footings.toml"};

void demand_words(const holdpin::Faults& faults) {
    for (const holdpin::Fault& fault : faults) {
        if (fault.what.empty()) std::abort();
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    const std::string text(reinterpret_cast<const char*>(data) + 1, size - 1);
    const std::size_t kind = data[0] % (kNames.size() + 1);
    if (kind < kNames.size()) {
        demand_words(holdpin::load_pack(holdpin::Files{{kNames[kind], text}}, {}).faults);
    } else {
        demand_words(holdpin::load_content({}, {}, holdpin::Files{{"site.toml", text}}).faults);
    }
    return 0;
}
