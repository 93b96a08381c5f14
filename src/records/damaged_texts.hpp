// Private texts that are not the ones that were kept: their salted hash, which stands in entries,
// is another. They are shown nowhere, as if they had been erased; here they are named.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "store/database.hpp"

namespace holdpin {

struct DamagedText {
    std::string hash;   // as it stands in entries
    std::string about;  // the person, as the row says
    std::vector<std::int64_t> entries;
};

// Every private text is hashed again; entries are only read where one is damaged.
Result<std::vector<DamagedText>> damaged_texts(Database& db);
// "a private text is not the one that was kept (entries 5, 12; about p-okafor-lind)".
std::string damaged_sentence(const DamagedText& text);
inline constexpr const char* kTextMend =
    "take it from a backup that still has it: holdpin restore; until then it counts as erased";

}  // namespace holdpin
