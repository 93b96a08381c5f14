// The one way to write: facts become entries, entries change the present state, and both are
// durable together before anything is shown. Reading goes through the queries of records.hpp.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "ledger/ledger.hpp"
#include "ledger/sealer.hpp"
#include "store/database.hpp"

namespace holdpin {

class Book {
  public:
    // Folds in what the ledger holds beyond the state tables (after an update of the program).
    static Result<std::unique_ptr<Book>> open(Database& db, Ledger& ledger, Random& random);

    // Enters all facts and runs `beside` (drafts, private texts) in one transaction; `beside` runs
    // first. What was entered is read back before it counts. On an error nothing of it has
    // happened.
    using Beside = std::function<Result<void>()>;
    Result<std::vector<Entry>> enter(std::vector<Fact> facts, const Beside& beside = nullptr);
    Result<Entry> enter(Fact fact, const Beside& beside = nullptr);

    // Seals the ledger with what was entered: for good at each release and each 64 entries, with
    // the seal that moves on at each return, finding, signature and refusal.
    // `sealer` must outlive its use; null: nothing is sealed, as at first.
    void seal_with(Sealer* sealer) { sealer_ = sealer; }
    Sealer* sealer() { return sealer_; }

    // Drops the state tables and folds all entries again.
    Result<void> rebuild();

    Database& db() { return db_; }
    Ledger& ledger() { return ledger_; }
    Random& random() { return random_; }

  private:
    Book(Database& db, Ledger& ledger, Random& random)
        : db_(db), ledger_(ledger), random_(random) {}
    Result<void> fold_from(std::int64_t first);
    Result<void> seal_after(const std::vector<Entry>& entries);
    Database& db_;
    Ledger& ledger_;
    Random& random_;
    Sealer* sealer_ = nullptr;
};

}  // namespace holdpin
