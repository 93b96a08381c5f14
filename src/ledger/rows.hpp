// Rows of the table `entry` as they stand, and what can be said of one. Used inside ledger/ only.
#pragma once

#include "ledger/ledger.hpp"

namespace holdpin {

struct EntryRow {
    std::int64_t n = 0;
    Bytes body;
    Bytes leaf;
    bool as_stored = true;  // both are blobs, as they were written
};

// Of "SELECT n, body, leaf FROM entry ...".
EntryRow row_of(const Query& query);

struct RowVerdict {
    LedgerFault fault = LedgerFault::none;
    std::string what;  // one sentence, if there is a fault
    Entry entry;       // if there is none
    Hash leaf{};
};

// Whether the row holds by itself: its leaf, its body and its number agree.
RowVerdict judge(const EntryRow& row);

// The entry of a row, or the error that names it.
Result<Entry> entry_of(const EntryRow& row);

// Reads all rows in order up to the first fault. `grown` is told of the tree after each entry that
// holds; it may state a fault itself and return false, and the reading ends.
// `public_key`: of who signed what was purged; null: it is not asked.
using Grown = std::function<bool(const Frontier& tree, LedgerReport& report)>;
Result<LedgerReport> read_rows(Database& db, const Grown& grown, const Bytes* public_key);

}  // namespace holdpin
