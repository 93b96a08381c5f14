// How long each record is kept, and what goes when its time is over: its free text; its body, where
// nothing that stays leans on it (purge_bodies.hpp); and, once no record that is kept needs it, a
// person's name. What is under a legal hold, and what tells of exposure to bad air, is left alone.
// Of an entry that was purged number and leaf stay, so that every proof goes on holding.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "content_types/content.hpp"
#include "ledger/ledger.hpp"
#include "records/book.hpp"
#include "records/privacy.hpp"
#include "records/purge_bodies.hpp"

namespace holdpin {

struct Kept {
    const RetentionClass* one = nullptr;
    // The first day on which it need not be kept; absent: as long as the person works here, or
    // where there is no class.
    std::optional<Date> until;
    bool held = false;  // by a legal hold

    bool is_over(Date as_of) const {
        return one != nullptr && one->purge && until && *until <= as_of && !held;
    }
};

class Retention {
  public:
    static Result<Retention> load(Database& db, const Pack& pack, const Zone& zone);
    Result<Kept> of(const Entry& entry) const;

  private:
    Retention(Database& db, const Pack& pack, const Zone& zone)
        : db_(&db), pack_(&pack), zone_(&zone) {}
    Database* db_;
    const Pack* pack_;
    const Zone* zone_;
    std::vector<LegalHold> holds_;
};

struct PurgePlan {
    Date as_of;
    std::map<std::string, std::vector<std::string>> texts;  // class -> hashes still there
    std::map<std::string, std::vector<std::string>> names;  // person -> hashes still there
    PurgeBodies bodies;
    std::uint64_t held = 0;  // entries that would be over but for a legal hold

    std::size_t text_count() const;
    bool empty() const { return texts.empty() && names.empty() && bodies.empty(); }
};
Result<PurgePlan> plan_purge(Book& book, const Pack& pack, const Zone& zone, Date as_of);
// Erases, enters `purged`, seals it, and folds what is left anew, in one transaction. Refused, and
// nothing of it done: where there is nothing to erase, where bodies go and nothing seals, and where
// the present state would come out as another. `signers`: who answers for it, and their signatures.
Result<Entry> purge(Book& book, const PurgePlan& plan, const Fact& signers = {});

// Everything about one person, as the records have it now, oldest first.
struct RecordAbout {
    Entry entry;
    Kept kept;
};
Result<std::vector<RecordAbout>> records_about(Database& db, const Pack& pack, const Zone& zone,
                                               std::string_view person);

}  // namespace holdpin
