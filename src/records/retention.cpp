#include "records/retention.hpp"

#include <algorithm>
#include <set>

#include "records/records.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;
constexpr int kMonthsInYear = 12;

std::string text_of(const Json& data, const char* key) {
    const auto at = data.find(key);
    return at != data.end() && at->is_string() ? at->get<std::string>() : std::string();
}

// Whose employment a record is counted from.
std::string person_of(const Entry& entry) {
    const std::string person = text_of(entry.data, "person");
    if (!person.empty()) return person;
    return entry.by.empty() ? std::string() : entry.by.front();
}

// The hashes of free text in an entry; names have a life of their own.
std::vector<std::string> free_texts(const Entry& entry) {
    std::vector<std::string> hashes;
    for (const char* key : {"text", "competence"}) {
        std::string hash = text_of(entry.data, key);
        if (!hash.empty()) hashes.push_back(std::move(hash));
    }
    return hashes;
}

void gather_texts(const Json& json, std::set<std::string>& found) {
    if (json.is_string()) found.insert(json.get<std::string>());
    if (!json.is_structured()) return;
    for (const Json& one : json) gather_texts(one, found);
}

// One pass over the ledger: what is over, and what a record that is kept still needs.
class Sweep {
  public:
    Sweep(const Retention& retention, Date as_of, std::set<std::string> people)
        : retention_(retention), as_of_(as_of), people_(std::move(people)) {}

    Result<void> take(const Entry& entry) {
        if (entry.kind == "person-enrolled") {
            names_[text_of(entry.data, "person")].push_back(text_of(entry.data, "name"));
        }
        Kept kept = TRY(retention_.of(entry));
        // A note of disagreement lives as long as a record of the kind it is about.
        if (entry.kind == "disagreement-noted" && classes_.contains(entry.about)) {
            Entry like = entry;
            like.kind = classes_.at(entry.about);
            kept = TRY(retention_.of(like));
        }
        if (entry.data.contains("text")) classes_[entry.n] = entry.kind;
        const bool over = kept.is_over(as_of_);
        if (kept.held && Kept{kept.one, kept.until, false}.is_over(as_of_)) ++held_;
        for (const std::string& hash : free_texts(entry)) {
            if (over) over_[kept.one->id].insert(hash);
            if (!over) needed_texts_.insert(hash);
        }
        if (!over) need_people(entry);
        return {};
    }

    Result<PurgePlan> plan(Database& db) const {
        PurgePlan plan;
        plan.as_of = as_of_;
        plan.held = held_;
        for (const auto& [one, hashes] : over_) {
            for (const std::string& hash : hashes) {
                if (needed_texts_.contains(hash) || !TRY(has_private_text(db, hash))) continue;
                plan.texts[one].push_back(hash);
            }
        }
        for (const auto& [person, hashes] : names_) {
            if (needed_people_.contains(person) || !TRY(gone(db, person))) continue;
            for (const std::string& hash : hashes) {
                if (TRY(has_private_text(db, hash))) plan.names[person].push_back(hash);
            }
        }
        return plan;
    }

  private:
    void need_people(const Entry& entry) {
        std::set<std::string> texts(entry.by.begin(), entry.by.end());
        gather_texts(entry.data, texts);
        std::set_intersection(texts.begin(), texts.end(), people_.begin(), people_.end(),
                              std::inserter(needed_people_, needed_people_.end()));
    }

    const Retention& retention_;
    Date as_of_;
    std::set<std::string> people_;
    std::set<std::string> needed_people_;
    std::set<std::string> needed_texts_;
    std::map<std::string, std::set<std::string>> over_;         // class -> hashes
    std::map<std::string, std::vector<std::string>> names_;     // person -> hashes
    std::map<std::int64_t, std::string> classes_;               // entry with text -> its kind
    std::uint64_t held_ = 0;
};

}  // namespace

Result<Retention> Retention::load(Database& db, const Pack& pack, const Zone& zone) {
    Retention retention(db, pack, zone);
    retention.holds_ = TRY(legal_holds(db));
    return retention;
}

Result<Kept> Retention::of(const Entry& entry) const {
    Kept kept;
    kept.one = pack_->retention_of(entry.kind);
    kept.held = std::any_of(holds_.begin(), holds_.end(),
                            [&](const LegalHold& hold) { return hold.covers(entry); });
    if (kept.one == nullptr) return kept;
    std::int64_t from_ms = entry.at_ms;
    if (kept.one->from_employment) {
        const auto left = TRY(gone(*db_, person_of(entry)));
        if (!left) return kept;
        from_ms = left->left_ms;
    }
    kept.until = add_months(zone_->local(from_ms).date, kept.one->years * kMonthsInYear);
    return kept;
}

std::size_t PurgePlan::text_count() const {
    std::size_t count = 0;
    for (const auto& [one, hashes] : texts) count += hashes.size();
    return count;
}

Result<PurgePlan> plan_purge(Book& book, const Pack& pack, const Zone& zone, Date as_of) {
    const Retention retention = TRY(Retention::load(book.db(), pack, zone));
    std::set<std::string> ids;
    for (const Person& person : TRY(people(book.db()))) ids.insert(person.id);
    Sweep sweep(retention, as_of, std::move(ids));
    const auto last = static_cast<std::int64_t>(book.ledger().size());
    TRY(book.ledger().each(1, last, [&](const Entry& entry) { return sweep.take(entry); }));
    return sweep.plan(book.db());
}

Result<Entry> purge(Book& book, const PurgePlan& plan) {
    if (plan.empty()) return Error{ErrorKind::refused, "there is nothing to purge", "", ""};
    Fact fact;
    fact.kind = "purged";
    Json classes = Json::object();
    for (const auto& [one, hashes] : plan.texts) classes[one] = hashes.size();
    fact.data = {{"as_of", iso_date(plan.as_of)},
                 {"classes", std::move(classes)},
                 {"texts", plan.text_count()},
                 {"names", plan.names.size()}};
    const Entry entry = TRY(book.enter(fact, [&]() -> Result<void> {
        for (const auto* erased : {&plan.texts, &plan.names}) {
            for (const auto& [key, hashes] : *erased) {
                for (const std::string& hash : hashes) TRY(erase_private_text(book.db(), hash));
            }
        }
        return {};
    }));
    // The write-ahead log holds the old bytes until it is written back.
    TRY(book.db().checkpoint());
    return entry;
}

Result<std::vector<RecordAbout>> records_about(Database& db, const Pack& pack, const Zone& zone,
                                               std::string_view person) {
    const Retention retention = TRY(Retention::load(db, pack, zone));
    std::vector<RecordAbout> records;
    for (Entry& entry : TRY(entries_naming(db, person))) {
        const Kept kept = TRY(retention.of(entry));
        records.push_back({std::move(entry), kept});
    }
    return records;
}

}  // namespace holdpin
