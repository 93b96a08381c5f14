#include "ledger/ledger.hpp"

#include <algorithm>
#include <array>

#include "ledger/rows.hpp"
#include "ledger/seal.hpp"

namespace holdpin {
namespace {

constexpr std::int64_t kCheckedAtStart = 64;
constexpr std::size_t kSaltSize = 16;

// The stored leaves in order, without their bodies.
Result<void> each_leaf(Database& db, const std::function<void(const Hash&)>& visit) {
    auto query = db.query("SELECT n, leaf FROM entry ORDER BY n");
    std::int64_t wanted = 1;
    while (TRY(query.next())) {
        const Bytes stored = query.blob(1);
        Hash leaf{};
        if (query.integer(0) != wanted || stored.size() != leaf.size()) {
            return Error{ErrorKind::damaged,
                         "entry " + std::to_string(wanted) + " is missing or has no hash", "ledger",
                         "go back to the last good copy"};
        }
        std::copy(stored.begin(), stored.end(), leaf.begin());
        visit(leaf);
        ++wanted;
    }
    return {};
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
    Frontier frontier;
    // The leaves pass by once; a start asks for the root below the newest seal soon after.
    const std::uint64_t sealed = TRY(newest_sealed_size(db_));
    noted_size_ = 0;
    TRY(each_leaf(db_, [&](const Hash& leaf) {
        frontier.append(leaf);
        if (frontier.size() == sealed) {
            noted_size_ = sealed;
            noted_root_ = frontier.root();
        }
    }));
    frontier_ = std::move(frontier);
    return {};
}

Result<Hash> Ledger::root_at(std::uint64_t wanted) {
    if (wanted > size()) {
        return Error{ErrorKind::absent, "there are only " + std::to_string(size()) + " entries",
                     "ledger", ""};
    }
    if (wanted == size()) return root();
    if (wanted == noted_size_) return noted_root_;
    Frontier frontier;
    TRY(each_leaf(db_, [&](const Hash& leaf) {
        if (frontier.size() < wanted) frontier.append(leaf);
    }));
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
    TRY(db_.query("INSERT INTO entry (n, body, leaf) VALUES (?, ?, ?)")
            .bind(entry.n)
            .bind(body)
            .bind(leaf)
            .run());
    frontier_.append(leaf);
    return entry;
}

Result<Entry> Ledger::at(std::int64_t n) {
    auto query = db_.query("SELECT n, body, leaf FROM entry WHERE n = ?");
    query.bind(n);
    if (!TRY(query.next())) {
        return Error{ErrorKind::absent, "there is no entry " + std::to_string(n), "ledger", ""};
    }
    return entry_of(row_of(query));
}

Result<void> Ledger::each(std::int64_t from, std::int64_t to,
                          const std::function<Result<void>(const Entry&)>& visit) {
    auto query = db_.query("SELECT n, body, leaf FROM entry WHERE n BETWEEN ? AND ? ORDER BY n");
    query.bind(from).bind(to);
    std::int64_t wanted = std::max<std::int64_t>(from, 1);
    while (TRY(query.next())) {
        const EntryRow row = row_of(query);
        if (row.n != wanted) {
            return Error{ErrorKind::damaged, "entry " + std::to_string(wanted) + " is missing",
                         "ledger", "go back to the last good copy"};
        }
        TRY(visit(TRY(entry_of(row))));
        ++wanted;
    }
    return {};
}

Result<std::vector<Hash>> Ledger::leaves() {
    std::vector<Hash> leaves;
    leaves.reserve(size());
    TRY(each_leaf(db_, [&](const Hash& leaf) { leaves.push_back(leaf); }));
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
