// The witness code: eight characters that stand for a sealed size and root, short enough to be
// written by hand in a book that no program can change. It is no signature and no secret; how much
// it can show, and what it cannot, stands in FORMAT.md.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "ledger/tree.hpp"

namespace holdpin {

// "K7DM-3XQA".
std::string witness_code(std::uint64_t size, const Hash& root);

// A code that was typed back in, with the number of entries if it was written beside it.
struct Witness {
    std::string code;  // as witness_code() writes it
    std::optional<std::uint64_t> size;
};
// "K7DM-3XQA", "k7dm3xqa@1234", "K7DM 3XQA @ 1234": case, blanks and hyphens do not count, and
// 8, 5, 2, G and U are taken for B, S, Z, 6 and V. Error: invalid.
Result<Witness> witness_from(std::string_view typed);

}  // namespace holdpin
