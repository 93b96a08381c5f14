#include "records/retention.hpp"

#include <algorithm>
#include <set>

#include "base_json/values.hpp"
#include "records/fold.hpp"
#include "records/records.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;
constexpr int kMonthsInYear = 12;
constexpr std::size_t kRangesOfEntry = 1000;  // an entry stays readable

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
        const std::string_view about = bodies_.kind_of(entry.about);
        if (entry.kind == "disagreement-noted" && !about.empty()) {
            Entry like = entry;
            like.kind = about;
            kept = TRY(retention_.of(like));
        }
        const bool over = kept.is_over(as_of_);
        bodies_.take(entry, kept.one, over);
        if (kept.held && Kept{kept.one, kept.until, false}.is_over(as_of_)) ++held_;
        for (const std::string& hash : free_texts(entry)) {
            if (over) over_[kept.one->id].insert(hash);
            if (!over) needed_texts_.insert(hash);
        }
        if (!over) need_people(entry);
        return {};
    }

    Result<PurgePlan> plan(Database& db) {
        PurgePlan plan;
        plan.bodies = TRY(bodies_.plan(db));
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
    BodySweep bodies_;
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

namespace {

Fact purged_fact(const PurgePlan& plan, const Fact& signers) {
    Json classes = Json::object();
    for (const auto& [one, hashes] : plan.texts) classes[one] = hashes.size();
    Json bodies = Json::object();
    for (const auto& [one, number] : plan.bodies.classes) bodies[one] = number;
    Fact fact = signers;
    fact.kind = "purged";
    fact.data["as_of"] = iso_date(plan.as_of);
    fact.data["classes"] = std::move(classes);
    fact.data["texts"] = plan.text_count();
    fact.data["names"] = plan.names.size();
    fact.data["bodies"] = std::move(bodies);
    return fact;
}

// Where very many stretches go, further entries `purged` go on with them.
std::vector<Fact> purged_facts(Book& book, const PurgePlan& plan, const Fact& signers) {
    std::vector<Fact> facts{purged_fact(plan, signers)};
    const auto first = static_cast<std::int64_t>(book.ledger().size()) + 1;
    const auto& ranges = plan.bodies.ranges;
    for (auto from = ranges.begin(); from != ranges.end();) {
        const auto count = std::min<std::ptrdiff_t>(kRangesOfEntry, ranges.end() - from);
        if (from != ranges.begin()) {
            facts.push_back({"purged", {}, "", first, Json::object()});
            facts.back().data["as_of"] = iso_date(plan.as_of);
        }
        facts.back().data.update(purged_data(book.sealer()->key(), {from, from + count}));
        from += count;
    }
    return facts;
}

Result<void> erase(Book& book, const PurgePlan& plan) {
    for (const auto* erased : {&plan.texts, &plan.names}) {
        for (const auto& [key, hashes] : *erased) {
            for (const std::string& hash : hashes) TRY(erase_private_text(book.db(), hash));
        }
    }
    return take_bodies_out(book.db(), plan.bodies.ranges);
}

// What stands today must not hang on what is gone: else the next fold would tell another story.
Result<void> fold_anew(Book& book, const PurgePlan& plan) {
    TRY(drop_rows_of(book.db(), plan.bodies));
    const std::string wanted = TRY(state_digest(book.db()));
    TRY(book.rebuild());
    if (TRY(state_digest(book.db())) == wanted) return {};
    return Error{ErrorKind::refused,
                 "without these entries the present state would not be what it is", "",
                 "nothing was purged; tell whoever looks after the program"};
}

// All within the transaction that is running.
Result<Entry> do_purge(Book& book, const PurgePlan& plan, const Fact& signers) {
    // The table lets a body go only below a seal that stays.
    if (!plan.bodies.empty()) TRY(book.sealer()->seal());
    const auto entries = TRY(book.enter(purged_facts(book, plan, signers),
                                        [&] { return erase(book, plan); }));
    if (plan.bodies.empty()) return entries.front();
    TRY(book.sealer()->seal());
    TRY(fold_anew(book, plan));
    return entries.front();
}

}  // namespace

Result<Entry> purge(Book& book, const PurgePlan& plan, const Fact& signers) {
    if (plan.empty()) return Error{ErrorKind::refused, "there is nothing to purge", "", ""};
    if (!plan.bodies.empty() && book.sealer() == nullptr) {
        return Error{ErrorKind::refused, "nothing is purged where nothing is sealed", "", ""};
    }
    std::optional<Entry> entry;
    const Result<void> done = book.db().transaction([&]() -> Result<void> {
        entry = TRY(do_purge(book, plan, signers));
        return {};
    });
    if (!done) {
        TRY(book.ledger().reload());
        return done.error();
    }
    if (book.sealer() != nullptr) book.sealer()->keep_copy();
    // The write-ahead log holds the old bytes until it is written back.
    TRY(book.db().checkpoint());
    return *entry;
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
