// The full check: every entry, every seal and its signature, and what was kept elsewhere: the seal
// outside the data directory and a witness code from the book. One pass, memory stays flat.
// It names the first entry that is not what was written. Of an entry that was rewritten together
// with its leaf only the seals know; then it names the stretch between two seals.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "ledger/ledger.hpp"
#include "ledger/seal.hpp"
#include "ledger/witness.hpp"

namespace holdpin {

// What the entries are held against, beside the seals that stand with them.
struct Evidence {
    Bytes public_key;
    std::optional<Seal> outside;
    std::optional<Witness> witness;  // without a size it is looked for among the seals
    // Every seal is held against the tree; where they are very many, signatures are verified of the
    // newest and of a spread of a thousand, unless every one is asked for: then it is also asked of
    // every entry whether the signature in it was made for it; else of those above the newest seal.
    bool every_signature = false;
};

struct FullReport {
    LedgerReport ledger;
    std::uint64_t seals = 0;               // that hold
    std::uint64_t signatures = 0;          // that were verified, and hold
    std::uint64_t newest_seal = 0;         // entries under the newest of them
    std::vector<std::uint64_t> bad_seals;  // by size
    std::optional<Seal> witnessed;         // the seal of the witness code, or a mere size and root
    bool outside_holds = false;            // looked at, and of these entries
};

Result<FullReport> check_ledger(Database& db, const Evidence& evidence);

// What a start finds in a few steps: the newest seal and the one kept outside.
struct StartFinding {
    std::string doubt;  // one sentence; empty: none. Nothing is to be released
    std::string mend = "run: holdpin ledger check, then: holdpin restore with the newest backup";
};
Result<StartFinding> look_at_start(Database& db, Ledger& ledger, const KioskKey& key,
                                   const std::string& outside_path);

// A seal was put outside once. From then on a missing one is a doubt: whoever puts old data back
// would take away what shows it.
Result<void> note_seal_outside(Database& db);
// That it is gone, if one was kept at all.
Result<std::optional<Error>> gone_from_outside(Database& db, const std::string& path);

// The seal kept outside, or none if there is no file. Error: damaged, if it is no seal of this key.
Result<std::optional<Seal>> seal_outside(const std::string& path, const Bytes& public_key);

}  // namespace holdpin
