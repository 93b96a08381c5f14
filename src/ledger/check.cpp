// What holds of the stored rows: one by one, and all together.
#include <algorithm>
#include <optional>

#include "ledger/ledger.hpp"
#include "ledger/purged.hpp"
#include "ledger/rows.hpp"

namespace holdpin {
namespace {

// A wall clock that shows less than at the entry before, within one boot, was set back.
bool clock_was_set_back(const Entry& before, const Entry& entry) {
    return entry.boot == before.boot && entry.at_ms < before.at_ms;
}

std::string named(std::int64_t n) { return "entry " + std::to_string(n); }

// Whether a row after `n` holds what was written as entry `wanted`. Only asked after a fault.
bool stands_later(Database& db, std::int64_t n, std::int64_t wanted) {
    auto query = db.query("SELECT n, body, leaf FROM entry WHERE n > ? ORDER BY n");
    query.bind(n);
    for (auto more = query.next(); more && more.value(); more = query.next()) {
        const RowVerdict verdict = judge(row_of(query));
        if (verdict.entry.n == wanted) return true;
    }
    return false;
}

void blame(LedgerReport& report, LedgerFault fault, std::int64_t n, std::string what) {
    report.fault = fault;
    report.first_bad = n;
    report.what = std::move(what);
}

// Row `n` holds, in every part, what was written as entry `written`.
void blame_misplaced(Database& db, LedgerReport& report, std::int64_t n, std::int64_t written) {
    if (written < n) {
        blame(report, LedgerFault::inserted, written,
              named(written) + " stands twice: one of the two was inserted");
    } else if (!stands_later(db, n, n)) {
        blame(report, LedgerFault::removed, n,
              named(n) + " is missing: in its place stands " + named(written));
    } else if (stands_later(db, n, written)) {
        blame(report, LedgerFault::inserted, n, named(n) + " was moved up by an inserted one");
    } else {
        blame(report, LedgerFault::reordered, n,
              named(n) + " is out of its order: in its place stands " + named(written));
    }
}

// Takes rows in their order and knows what has to come next.
class Reader {
  public:
    Reader(Database& db, LedgerReport& report, const Bytes* public_key)
        : db_(db), report_(report), purged_(db, public_key) {}

    std::int64_t wanted() const { return before_.n + 1; }
    const Frontier& tree() const { return tree_; }

    // False: the row has a fault, which is in the report.
    bool take(const EntryRow& row) {
        if (row.n != wanted()) {
            blame(report_, LedgerFault::gap, wanted(), named(wanted()) + " is missing");
            return false;
        }
        RowVerdict verdict = judge(row);
        if (verdict.fault == LedgerFault::missing_body) {
            const auto named = purged_.names(row.n);
            if (named && named.value()) return pass_over(row.n, verdict.leaf);
        }
        if (verdict.fault == LedgerFault::reordered) {
            blame_misplaced(db_, report_, row.n, verdict.entry.n);
            return false;
        }
        if (verdict.fault != LedgerFault::none) {
            blame(report_, verdict.fault, row.n, verdict.what);
            return false;
        }
        const std::string_view body(reinterpret_cast<const char*>(row.body.data()),
                                    row.body.size());
        if (!signature_is_bound(verdict.entry, body)) {
            blame(report_, LedgerFault::moved_signature, row.n,
                  "the signature in " + named(row.n) + " was made for another record");
            return false;
        }
        if (before_.n > 0 && clock_was_set_back(before_, verdict.entry)) {
            report_.clock_jumps.push_back(row.n);
        }
        tree_.append(verdict.leaf);
        before_ = std::move(verdict.entry);
        return true;
    }

  private:
    // A purged entry is its leaf; the clock is held against the entry before it.
    bool pass_over(std::int64_t n, const Hash& leaf) {
        tree_.append(leaf);
        before_.n = n;
        return true;
    }

    Database& db_;
    LedgerReport& report_;
    Purged purged_;
    Frontier tree_;
    Entry before_;
};

}  // namespace

EntryRow row_of(const Query& query) {
    return {query.integer(0), query.blob(1), query.blob(2), query.is_blob(1) && query.is_blob(2)};
}

RowVerdict judge(const EntryRow& row) {
    const std::string name = named(row.n);
    RowVerdict verdict;
    if (row.leaf.size() != verdict.leaf.size()) {
        return {LedgerFault::altered_leaf, name + " has no hash", {}, {}};
    }
    std::copy(row.leaf.begin(), row.leaf.end(), verdict.leaf.begin());
    if (row.body.empty() && row.as_stored) {
        verdict.fault = LedgerFault::missing_body;
        verdict.what = name + " has no body, and no sealed entry says that it was purged";
        return verdict;
    }
    if (leaf_hash(row.body) != verdict.leaf || !row.as_stored) {
        return {LedgerFault::altered_body, name + " is not what was written", {}, {}};
    }
    auto entry = entry_from(std::string(row.body.begin(), row.body.end()));
    if (!entry) return {LedgerFault::undecodable, name + " cannot be read", {}, {}};
    verdict.entry = std::move(entry).value();
    if (verdict.entry.n != row.n) {
        verdict.fault = LedgerFault::reordered;
        verdict.what = name + " was written as " + named(verdict.entry.n);
    }
    return verdict;
}

Result<Entry> entry_of(const EntryRow& row) {
    RowVerdict verdict = judge(row);
    if (verdict.fault == LedgerFault::none) return std::move(verdict.entry);
    return Error{ErrorKind::damaged, verdict.what, "ledger", "go back to the last good copy"};
}

Result<LedgerReport> read_rows(Database& db, const Grown& grown, const Bytes* public_key) {
    LedgerReport report;
    Reader reader(db, report, public_key);
    auto query = db.query("SELECT n, body, leaf FROM entry ORDER BY n");
    bool goes_on = true;
    while (goes_on) {
        const auto more = query.next();
        if (!more) {
            blame(report, LedgerFault::unreadable, reader.wanted(),
                  named(reader.wanted()) + " cannot be read from the file: " + more.error().what);
        }
        goes_on = more && more.value() && reader.take(row_of(query)) &&
                  (!grown || grown(reader.tree(), report));
    }
    if (report.fault == LedgerFault::rewritten) return report;
    report.size = reader.tree().size();
    report.root = reader.tree().root();
    return report;
}

Result<LedgerReport> check_entries(Database& db) { return read_rows(db, nullptr, nullptr); }

}  // namespace holdpin
