#include "ledger/ledger.hpp"

#include <algorithm>
#include <array>

#include "ledger/frontiers.hpp"
#include "ledger/purged.hpp"
#include "ledger/rows.hpp"
#include "ledger/seal.hpp"

namespace holdpin {
namespace {

constexpr std::int64_t kCheckedAtStart = 64;
constexpr std::size_t kSaltSize = 16;

Result<std::uint64_t> last_number(Database& db) {
    auto query = db.query("SELECT coalesce(max(n), 0) FROM entry");
    TRY(query.next());
    return static_cast<std::uint64_t>(query.integer(0));
}

Error missing(std::uint64_t n) {
    return {ErrorKind::damaged, "entry " + std::to_string(n) + " is missing or has no hash",
            "ledger", "go back to the last good copy"};
}

// The stored leaves first..last in order, without their bodies.
Result<void> each_leaf(Database& db, std::uint64_t first, std::uint64_t last,
                       const std::function<Result<void>(const Hash&)>& visit) {
    auto query = db.query("SELECT n, leaf FROM entry WHERE n BETWEEN ? AND ? ORDER BY n");
    query.bind(static_cast<std::int64_t>(first)).bind(static_cast<std::int64_t>(last));
    std::uint64_t wanted = first;
    while (TRY(query.next())) {
        const auto stored = query.blob_view(1);
        Hash leaf{};
        if (query.integer(0) != static_cast<std::int64_t>(wanted) || stored.size() != leaf.size()) {
            return missing(wanted);
        }
        std::copy(stored.begin(), stored.end(), leaf.begin());
        TRY(visit(leaf));
        ++wanted;
    }
    if (wanted != last + 1) return missing(wanted);
    return {};
}

// Lets the tree grow up to `size` entries.
Result<void> grow(Database& db, Frontier& frontier, std::uint64_t size) {
    return each_leaf(db, frontier.size() + 1, size, [&](const Hash& leaf) -> Result<void> {
        frontier.append(leaf);
        return {};
    });
}

Result<void> refuse_unfit(const Fact& fact, std::int64_t n) {
    if (fact.kind.empty()) {
        return Error{ErrorKind::invalid, "an entry needs a kind", "", ""};
    }
    if (!fact.data.is_object()) {
        return Error{ErrorKind::invalid, "the data of an entry is an object", fact.kind, ""};
    }
    if (fact.about < 0 || fact.about >= n) {
        return Error{
            ErrorKind::invalid,
            "an entry can only be about an earlier one, not about " + std::to_string(fact.about),
            fact.kind, ""};
    }
    return {};
}

}  // namespace

Result<std::unique_ptr<Ledger>> Ledger::open(Database& db, Clock& clock, Random& random,
                                             Place place) {
    std::unique_ptr<Ledger> ledger(new Ledger(db, clock, random, std::move(place)));
    TRY(ledger->reload());
    const auto size = static_cast<std::int64_t>(ledger->size());
    const std::int64_t first = std::max<std::int64_t>(1, size - kCheckedAtStart + 1);
    TRY(ledger->each(first, size, [](const Entry&) { return Result<void>(); }));
    return ledger;
}

Result<void> Ledger::reload() {
    const std::uint64_t last = TRY(last_number(db_));
    Frontier frontier = TRY(kept_frontier(db_, last));
    if (last - frontier.size() >= kFrontierStep) return reread();
    TRY(grow(db_, frontier, last));
    frontier_ = std::move(frontier);
    return TRY(fits_newest_seal()) ? Result<void>() : reread();
}

// Where they disagree, a kept frontier may be damaged, or the entries: the leaves know.
Result<bool> Ledger::fits_newest_seal() {
    const auto newest = newest_seal(db_);
    if (!newest || !newest.value() || newest.value()->size > size()) return true;
    return TRY(root_at(newest.value()->size)) == newest.value()->root;
}

Result<void> Ledger::reread() {
    const std::uint64_t last = TRY(last_number(db_));
    Frontier frontier;
    if (db_.read_only()) {
        TRY(grow(db_, frontier, last));
    } else {
        TRY(db_.transaction([&]() -> Result<void> {
            TRY(drop_frontiers(db_));
            return each_leaf(db_, 1, last, [&](const Hash& leaf) -> Result<void> {
                frontier.append(leaf);
                return keep_frontier_if_due(db_, frontier);
            });
        }));
    }
    frontier_ = std::move(frontier);
    return {};
}

Result<Hash> Ledger::root_at(std::uint64_t wanted) {
    if (wanted > size()) {
        return Error{ErrorKind::absent, "there are only " + std::to_string(size()) + " entries",
                     "ledger", ""};
    }
    if (wanted == size()) return root();
    Frontier frontier = TRY(kept_frontier(db_, wanted));
    TRY(grow(db_, frontier, wanted));
    return frontier.root();
}

Result<Entry> Ledger::append(const Fact& fact) {
    Entry entry;
    entry.n = static_cast<std::int64_t>(size()) + 1;
    TRY(refuse_unfit(fact, entry.n));
    entry.kind = fact.kind;
    entry.at_ms = clock_.now_ms();
    entry.offset_min = place_.zone.local(entry.at_ms).offset_min;
    entry.zone = place_.zone.name();
    entry.boot = clock_.boot();
    entry.mono_ms = clock_.mono_ms();
    entry.site = place_.site;
    entry.kiosk = place_.kiosk;
    entry.by = fact.by;
    entry.content = fact.content;
    entry.about = fact.about;
    entry.data = fact.data;
    std::array<std::uint8_t, kSaltSize> salt{};
    random_.fill(salt);
    entry.salt = hex(salt);

    TRY(bind_signature(entry));
    const std::string text = TRY(entry_body(entry));
    const Bytes body(text.begin(), text.end());
    const Hash leaf = leaf_hash(body);
    Frontier grown = frontier_;
    grown.append(leaf);
    TRY(db_.transaction([&]() -> Result<void> {
        TRY(db_.query("INSERT INTO entry (n, body, leaf) VALUES (?, ?, ?)")
                .bind(entry.n)
                .bind(body)
                .bind(leaf)
                .run());
        return keep_frontier_if_due(db_, grown);
    }));
    frontier_ = std::move(grown);
    return entry;
}

Result<Entry> Ledger::at(std::int64_t n) {
    auto query = db_.query("SELECT n, body, leaf FROM entry WHERE n = ?");
    query.bind(n);
    if (!TRY(query.next())) {
        return Error{ErrorKind::absent, "there is no entry " + std::to_string(n), "ledger", ""};
    }
    const EntryRow row = row_of(query);
    Purged purged(db_, nullptr);
    if (row.body.empty() && TRY(purged.names(n))) {
        return Error{ErrorKind::absent, "entry " + std::to_string(n) + " was purged", "ledger", ""};
    }
    return entry_of(row);
}

Result<void> Ledger::read_back(const std::vector<Entry>& given) {
    for (const Entry& entry : given) {
        const auto stored = at(entry.n);
        if (stored && TRY(entry_body(stored.value())) == TRY(entry_body(entry))) continue;
        return Error{ErrorKind::damaged,
                     "entry " + std::to_string(entry.n) + " is not stored as it was entered",
                     "ledger", "check the disk, then run: holdpin ledger check"};
    }
    return {};
}

Result<void> Ledger::each(std::int64_t from, std::int64_t to,
                          const std::function<Result<void>(const Entry&)>& visit) {
    auto query = db_.query("SELECT n, body, leaf FROM entry WHERE n BETWEEN ? AND ? ORDER BY n");
    query.bind(from).bind(to);
    std::int64_t wanted = std::max<std::int64_t>(from, 1);
    Purged purged(db_, nullptr);
    while (TRY(query.next())) {
        const EntryRow row = row_of(query);
        if (row.n != wanted) {
            return Error{ErrorKind::damaged, "entry " + std::to_string(wanted) + " is missing",
                         "ledger", "go back to the last good copy"};
        }
        ++wanted;
        if (row.body.empty() && TRY(purged.names(row.n))) continue;
        TRY(visit(TRY(entry_of(row))));
    }
    return {};
}

Result<std::vector<Hash>> Ledger::leaves() {
    std::vector<Hash> leaves;
    leaves.reserve(size());
    TRY(each_leaf(db_, 1, size(), [&](const Hash& leaf) -> Result<void> {
        leaves.push_back(leaf);
        return {};
    }));
    return leaves;
}

Result<LedgerReport> Ledger::check() {
    LedgerReport report = TRY(check_entries(db_));
    if (report.fault == LedgerFault::none && report.root != root()) {
        report.fault = LedgerFault::altered_leaf;
        report.what = "the stored entries are not those that this kiosk has written and read";
    }
    return report;
}

}  // namespace holdpin
