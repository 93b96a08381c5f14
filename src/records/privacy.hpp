// Questions about people's own side of the records: what they accepted, whether they have left,
// what they disagree with, what must be kept, and every entry that names them.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "ledger/ledger.hpp"
#include "store/database.hpp"

namespace holdpin {

// The digest of the signing statement that a person accepted in a language; empty: none.
Result<std::string> accepted_statement(Database& db, std::string_view person,
                                       std::string_view language);

// The entry that put the records in doubt; 0: none.
Result<std::int64_t> ledger_doubt(Database& db);

struct Gone {
    std::int64_t left_ms = 0;
    bool erased = false;
};
Result<std::optional<Gone>> gone(Database& db, std::string_view person);

// Whether a badge was lost: it opens nothing and is given to nobody.
Result<bool> badge_was_lost(Database& db, std::string_view badge);

// Whether the person ever had a PIN, or has left before: the PIN is taken away then, and its entry
// is not kept as long.
Result<bool> ever_had_pin(Database& db, std::string_view person);

// Badges and PINs that were refused since a time, newest first, no more than `most`.
struct SignInRefusal {
    std::int64_t at_ms = 0;
    std::string person;  // empty: a badge that belongs to nobody
    std::int64_t failures = 0;  // in a row
};
Result<std::vector<SignInRefusal>> refusals_since(Database& db, std::int64_t since_ms, int most);
Result<std::int64_t> refusal_count_since(Database& db, std::int64_t since_ms);

struct Disagreement {
    std::int64_t entry = 0;
    std::int64_t about = 0;
    std::string person;
    std::int64_t at_ms = 0;
    std::string text_hash;
};
Result<std::vector<Disagreement>> disagreements_about(Database& db, std::int64_t entry);
// The entry that a note is about; empty where it is not there or was purged.
Result<std::optional<Entry>> disputed_entry(Database& db, std::int64_t about);
Result<std::vector<Disagreement>> disagreements_of(Database& db, std::string_view person);

struct LegalHold {
    std::int64_t entry = 0;
    std::string scope;  // "all", "person", "machine"
    std::string id;     // of the person or machine
    std::int64_t at_ms = 0;
    std::string text_hash;
    bool covers(const Entry& entry) const;
};
// Those that were not lifted, oldest first.
Result<std::vector<LegalHold>> legal_holds(Database& db);

// Whether the id stands in `by` or as a text anywhere in the data.
bool names(const Entry& entry, std::string_view id);
// Every entry that names the person, oldest first.
Result<std::vector<Entry>> entries_naming(Database& db, std::string_view person);

}  // namespace holdpin
