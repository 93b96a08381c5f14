#include "records/book.hpp"

#include <algorithm>

#include "records/fold.hpp"
#include "records/state_check.hpp"

namespace holdpin {
namespace {

bool is_release(const Entry& entry) { return entry.kind == "release-given"; }

// A machine comes back or is found unsafe, or somebody signs: what somebody may later wish
// otherwise. Until the next seal an entry could be taken away without a trace.
bool may_be_regretted(const Entry& entry) {
    return entry.kind == "returned" || entry.kind == "finding-entered" ||
           entry.kind == "sign-refused" || entry.data.contains("signature");
}

}  // namespace

Result<std::unique_ptr<Book>> Book::open(Database& db, Ledger& ledger, Random& random) {
    std::unique_ptr<Book> book(new Book(db, ledger, random));
    TRY(db.transaction([&]() -> Result<void> {
        if (!TRY(is_folded_by_this(db))) {
            TRY(drop_state_tables(db));
            TRY(note_state_doubt(db, ""));
            TRY(mark_as_folded_by_this(db));
        }
        TRY(make_state_tables(db));
        const std::int64_t last = TRY(folded_up_to(db));
        if (last > static_cast<std::int64_t>(ledger.size())) {
            return Error{ErrorKind::damaged, "the state tables know more entries than the ledger",
                         "", "run: holdpin ledger rebuild"};
        }
        return book->fold_from(last + 1);
    }));
    return book;
}

Result<void> Book::fold_from(std::int64_t first) {
    const auto last = static_cast<std::int64_t>(ledger_.size());
    if (first > last) return {};
    EntryZones zones;
    return ledger_.each(first, last, [&](const Entry& entry) -> Result<void> {
        return fold(db_, entry, *TRY(zones.of(entry)));
    });
}

Result<void> Book::seal_after(const std::vector<Entry>& entries) {
    if (sealer_ == nullptr) return {};
    if (std::ranges::any_of(entries, is_release)) return sealer_->seal();
    if (std::ranges::any_of(entries, may_be_regretted)) return sealer_->seal_along();
    return sealer_->seal_if_due();
}

Result<std::vector<Entry>> Book::enter(std::vector<Fact> facts, const Beside& beside) {
    std::vector<Entry> entries;
    const Result<void> done = db_.transaction([&]() -> Result<void> {
        if (beside) TRY(beside());
        for (const Fact& fact : facts) {
            entries.push_back(TRY(ledger_.append(fact)));
            TRY(fold(db_, entries.back(), ledger_.place().zone));
        }
        TRY(ledger_.read_back(entries));
        return seal_after(entries);
    });
    if (!done) {
        // The frontier has grown with appends that never happened.
        TRY(ledger_.reload());
        return done.error();
    }
    if (sealer_ != nullptr) sealer_->keep_copy();
    return entries;
}

Result<Entry> Book::enter(Fact fact, const Beside& beside) {
    std::vector<Fact> facts;
    facts.push_back(std::move(fact));
    auto entries = TRY(enter(std::move(facts), beside));
    return entries.front();
}

Result<void> Book::rebuild() {
    return db_.transaction([&]() -> Result<void> {
        TRY(drop_state_tables(db_));
        TRY(make_state_tables(db_));
        TRY(note_state_doubt(db_, ""));
        return fold_from(1);
    });
}

}  // namespace holdpin
