#include "cli/site_facts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/sha256.hpp"
#include "flows/sign.hpp"
#include "records/privacy.hpp"
#include "records/records.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

constexpr std::string_view kAdoptedFact = "adopted-content";

std::string date_text(const std::optional<Date>& date) { return date ? iso_date(*date) : ""; }

// The hash that stands in an entry for words about a person; empty for no words.
Result<std::string> hidden(Database& db, Random& random, const std::string& words,
                           const std::string& person) {
    if (words.empty()) return std::string();
    return keep_private(db, random, words, person);
}

std::vector<std::string> duty_names(const Person& person) {
    std::vector<std::string> names;
    for (const Duty duty : person.duties) names.emplace_back(name_of(duty));
    return names;
}

std::vector<std::string> topics_of_record(const Content& content, const ExampleRecord& record) {
    if (!record.topics.empty()) return record.topics;
    std::vector<std::string> topics;
    if (const auto* machine_class = content.pack.machine_class(record.machine_class)) {
        for (const Topic& topic : machine_class->topics) topics.push_back(topic.id);
    }
    return topics;
}

// An id stands in signed records for good: whoever was erased is not somebody else later.
Error was_erased(const std::string& id) {
    return {ErrorKind::refused, "the person was erased, and the id is not used again", id,
            "take the person out of the site's file, or give a new id"};
}

// Training, authorisations and signatures hang on the id: they would be somebody else's.
Error is_of_another(const Person& known, const Person& person) {
    return {ErrorKind::refused, "the id belongs to " + known.name + ", not to " + person.name,
            person.id,
            "give a new id; or, if it is the same person under a new name, say so to holdpin "
            "adopt or people import: --renamed " + person.id};
}

Error was_lost(const Person& person) {
    return {ErrorKind::refused, "the badge " + person.badge + " was lost and opens nothing",
            person.id, "write the badge that the person has now"};
}

Error has_no_new_name(const std::string& id) {
    return {ErrorKind::invalid, "nobody with this id stands there under a new name", id,
            "leave out --renamed " + id};
}

Result<bool> has_other_name(Database& db, const Person& person) {
    const auto known = TRY(person_with(db, person.id));
    return known && known->name != person.name;
}

Result<bool> is_erased(Database& db, const std::string& person) {
    const auto left = TRY(gone(db, person));
    return left && left->erased;
}

}  // namespace

Result<std::vector<Error>> taken_ids(Database& db, const std::vector<Person>& people,
                                     const std::vector<std::string>& renamed) {
    std::vector<Error> faults;
    std::vector<std::string> unused = renamed;
    for (const Person& person : people) {
        if (TRY(is_erased(db, person.id))) {
            faults.push_back(was_erased(person.id));
        } else if (TRY(has_other_name(db, person))) {
            const auto said = std::remove(unused.begin(), unused.end(), person.id);
            if (said == unused.end()) {
                faults.push_back(is_of_another(*TRY(person_with(db, person.id)), person));
            }
            unused.erase(said, unused.end());
        }
        if (TRY(badge_was_lost(db, person.badge))) faults.push_back(was_lost(person));
    }
    for (const std::string& id : unused) faults.push_back(has_no_new_name(id));
    return faults;
}

Result<void> refuse_taken_ids(Database& db, const std::vector<Person>& people,
                              const std::vector<std::string>& renamed) {
    const auto faults = TRY(taken_ids(db, people, renamed));
    return faults.empty() ? Result<void>() : Result<void>(faults.front());
}

Result<Fact> person_fact(Database& db, Random& random, const Person& person) {
    if (TRY(is_erased(db, person.id))) return was_erased(person.id);
    const bool renamed = TRY(has_other_name(db, person));
    Fact fact;
    fact.kind = "person-enrolled";
    fact.data = Json{{"person", person.id},
                     {"name", TRY(hidden(db, random, person.name, person.id))},
                     {"badge", person.badge},
                     {"language", person.language},
                     {"duties", duty_names(person)},
                     {"endorsements", person.endorsements},
                     {"extension", person.extension},
                     {"competence", TRY(hidden(db, random, person.competence, person.id))},
                     {"listed_until", date_text(person.listed_until)}};
    if (renamed) fact.data["renamed"] = true;
    return fact;
}

Fact machine_fact(const Machine& machine) {
    Fact fact;
    fact.kind = "machine-enrolled";
    fact.data = Json{{"machine", machine.plate},
                     {"class", machine.machine_class},
                     {"room", machine.room},
                     {"hours", tenths_text(machine.hours_tenths)},
                     {"fuel", machine.fuel_percent},
                     {"service_every", tenths_text(machine.service_every_tenths)},
                     {"service_done", tenths_text(machine.service_done_tenths)},
                     {"inspection_due", date_text(machine.inspection_due)},
                     {"approved_as_truck", machine.approved_as_truck}};
    return fact;
}

Fact closed_room_fact(const Room& room) {
    Fact fact;
    fact.kind = "room-set";
    fact.data = Json{{"room", room.id}, {"closed", true}};
    return fact;
}

Fact adopted_fact(const std::map<std::string, std::string>& items, const std::string& site,
                  bool unasked) {
    Fact fact;
    fact.kind = "content-adopted";
    fact.data = Json{{"items", items}, {"site", site}};
    if (unasked) fact.data["unasked"] = true;
    return fact;
}

std::vector<Fact> brought_along(const Content& content, const ExampleRecord& record, Date today) {
    const std::string on = iso_date(add_days(today, -record.days_ago));
    const Json training{{"person", record.person},
                        {"topics", topics_of_record(content, record)},
                        {"class", record.machine_class},
                        {"on", on},
                        {"source", "brought-along"}};
    Json passed = training;
    passed["passed"] = true;
    const Json permission{{"person", record.person},
                          {"class", record.machine_class},
                          {"rooms", record.rooms},
                          {"shifts", record.shifts},
                          {"source", "brought-along"}};
    const std::vector<std::string> by{record.signed_by};
    std::vector<Fact> facts{{"instructed", by, "", 0, training}};
    if (record.practised) facts.push_back({"practised", by, "", 0, training});
    if (record.evaluated) facts.push_back({"evaluated", by, "", 0, passed});
    if (record.authorised) facts.push_back({"authorised", by, "", 0, permission});
    return facts;
}

Fact tailpipe_fact(const ExampleTailpipe& test, Date today) {
    Fact fact;
    fact.kind = "tailpipe-tested";
    // All of its decimals: rounded down, the engine would count for less than was measured.
    fact.data = Json{{"machine", test.machine},
                     {"co_lmin", fmt::format("{:#}", test.co_lmin)},
                     {"on", iso_date(add_days(today, -test.days_ago))}};
    return fact;
}

Fact statement_fact(const Content& content, const std::string& person,
                    const std::string& language) {
    Fact fact;
    fact.kind = "signing-statement-accepted";
    fact.by = {person};
    fact.data = Json{{"person", person},
                     {"language", language},
                     {"statement", signing_statement_digest(content.pack, language)},
                     {"source", "brought-along"}};
    return fact;
}

Result<void> keep_frozen(Database& db, const FrozenItems& frozen) {
    for (const auto& [key, bytes] : frozen) TRY(keep_content(db, hex(sha256(bytes)), bytes));
    return {};
}

Result<std::map<std::string, std::string>> last_adopted(Database& db) {
    const auto stored = TRY(fact(db, kAdoptedFact));
    if (!stored) return std::map<std::string, std::string>();
    const Json items = Json::parse(*stored, nullptr, false);
    if (!items.is_object()) {
        return Error{ErrorKind::damaged, "the list of adopted content cannot be read", "", ""};
    }
    return items.get<std::map<std::string, std::string>>();
}

Result<void> set_last_adopted(Database& db, const std::map<std::string, std::string>& items) {
    return set_fact(db, kAdoptedFact, Json(items).dump());
}

}  // namespace holdpin
