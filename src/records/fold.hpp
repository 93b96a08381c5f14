// The present state, folded from entries into tables that can be dropped and rebuilt at any time.
// Every kind of entry has one function that says what it changes; a kind without one changes
// nothing here and is kept all the same. Kinds and their data stand in records/ENTRIES.md.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/local_time.hpp"
#include "base/result.hpp"
#include "ledger/ledger.hpp"
#include "store/database.hpp"

namespace holdpin {

// One higher where an entry of an older program would be folded otherwise than it was.
inline constexpr int kFoldingVersion = 1;
// Tells how state was folded: with which tables, and by which version. What another mark stands
// beside, a program of another version folded; it is folded again.
std::string folding_mark();
Result<bool> is_folded_by_this(Database& db);
Result<void> mark_as_folded_by_this(Database& db);

// Makes the tables that are missing.
Result<void> make_state_tables(Database& db);
Result<void> drop_state_tables(Database& db);
// Makes empty ones of the same names that only this connection sees, in front of the true ones,
// until the transaction that is running is undone.
Result<void> make_temporary_state_tables(Database& db);
std::vector<std::string> state_tables();
// The zone that an entry was made in: that of the site may have been changed since, and what was
// folded when it was entered must come out again.
class EntryZones {
  public:
    // Stays until the next call. Error: what the zone database says.
    Result<const Zone*> of(const Entry& entry);

  private:
    std::optional<Zone> zone_;
};
// Applies one entry. Must be called in the order of the entries, each once.
Result<void> fold(Database& db, const Entry& entry, const Zone& zone);
// The number of the last entry that was folded in; 0 at first.
Result<std::int64_t> folded_up_to(Database& db);
// A digest of every row of every state table: equal states give equal digests.
Result<std::string> state_digest(Database& db);

}  // namespace holdpin
