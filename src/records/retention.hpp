// How long each record is kept, and what of it may be erased: names and free text, never an entry.
// A purge erases the free text of records whose time is over and, once no record that is kept needs
// it, a person's name. What is under a legal hold, and readings of air, are left alone.
// Bodies stay: they carry ids and salted hashes only, and every proof goes on holding.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "content_types/content.hpp"
#include "ledger/ledger.hpp"
#include "records/book.hpp"
#include "records/privacy.hpp"

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
    std::uint64_t held = 0;  // entries that would be over but for a legal hold

    std::size_t text_count() const;
    bool empty() const { return texts.empty() && names.empty(); }
};
Result<PurgePlan> plan_purge(Book& book, const Pack& pack, const Zone& zone, Date as_of);
// Erases and enters `purged` in one transaction. Refused where there is nothing to erase.
Result<Entry> purge(Book& book, const PurgePlan& plan);

// Everything about one person, as the records have it now, oldest first.
struct RecordAbout {
    Entry entry;
    Kept kept;
};
Result<std::vector<RecordAbout>> records_about(Database& db, const Pack& pack, const Zone& zone,
                                               std::string_view person);

}  // namespace holdpin
