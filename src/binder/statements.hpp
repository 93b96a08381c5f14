// Training as xAPI statements (IEEE 9274.1.1): guides read, quizzes, instruction, practice and
// evaluations. People are account identifiers without a name. Rounds, findings and releases are
// work and no learning, so there is no statement about them; nor about permissions.
// Verbs and types of activities are those of ADL's vocabulary, from memory.
#pragma once

#include <optional>
#include <string>

#include "content_types/content.hpp"
#include "ledger/ledger.hpp"

namespace holdpin {

// One statement as JSON, or nothing where the entry is no training. `leaf` makes its id.
std::optional<std::string> statement_of(const Entry& entry, const Hash& leaf, const Pack& pack);

}  // namespace holdpin
