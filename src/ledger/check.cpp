// What holds of the stored rows: one by one, and all together.
#include <algorithm>

#include "ledger/ledger.hpp"
#include "ledger/rows.hpp"

namespace holdpin {
namespace {

// A wall clock that shows less than at the entry before, within one boot, was set back.
bool clock_was_set_back(const Entry& before, const Entry& entry) {
    return entry.boot == before.boot && entry.at_ms < before.at_ms;
}

}  // namespace

EntryRow row_of(const Query& query) { return {query.integer(0), query.blob(1), query.blob(2)}; }

RowVerdict judge(const EntryRow& row) {
    const std::string name = "entry " + std::to_string(row.n);
    RowVerdict verdict;
    if (row.leaf.size() != verdict.leaf.size()) {
        return {LedgerFault::altered_leaf, name + " has no hash", {}, {}};
    }
    std::copy(row.leaf.begin(), row.leaf.end(), verdict.leaf.begin());
    if (leaf_hash(row.body) != verdict.leaf) {
        return {LedgerFault::altered_body, name + " is not what was written", {}, {}};
    }
    auto entry = entry_from(std::string(row.body.begin(), row.body.end()));
    if (!entry) return {LedgerFault::undecodable, name + " cannot be read", {}, {}};
    if (entry.value().n != row.n) {
        return {LedgerFault::altered_body,
                name + " was written as entry " + std::to_string(entry.value().n),
                {},
                {}};
    }
    verdict.entry = std::move(entry).value();
    return verdict;
}

Result<Entry> entry_of(const EntryRow& row) {
    RowVerdict verdict = judge(row);
    if (verdict.fault == LedgerFault::none) return std::move(verdict.entry);
    return Error{ErrorKind::damaged, verdict.what, "ledger", "go back to the last good copy"};
}

Result<LedgerReport> check_entries(Database& db) {
    LedgerReport report;
    Frontier frontier;
    Entry before;
    auto query = db.query("SELECT n, body, leaf FROM entry ORDER BY n");
    while (TRY(query.next())) {
        const EntryRow row = row_of(query);
        const std::int64_t wanted = before.n + 1;
        RowVerdict verdict = judge(row);
        if (row.n != wanted) {
            verdict.fault = LedgerFault::gap;
            verdict.what = "entry " + std::to_string(wanted) + " is missing";
        }
        if (verdict.fault != LedgerFault::none) {
            report.fault = verdict.fault;
            report.first_bad = wanted;
            report.what = verdict.what;
            break;
        }
        if (before.n > 0 && clock_was_set_back(before, verdict.entry)) {
            report.clock_jumps.push_back(row.n);
        }
        frontier.append(verdict.leaf);
        before = std::move(verdict.entry);
    }
    report.size = frontier.size();
    report.root = frontier.root();
    return report;
}

}  // namespace holdpin
