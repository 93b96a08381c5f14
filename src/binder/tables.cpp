#include "binder/tables.hpp"

#include <array>

#include "base/local_time.hpp"
#include "base/text.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

// A value of an entry as one cell: texts as they are, lists joined, anything else as JSON.
std::string cell_of(const Json& data, const char* key) {
    const auto at = data.find(key);
    if (at == data.end() || at->is_null()) return "";
    if (at->is_string()) return at->get<std::string>();
    if (!at->is_array()) return at->dump();
    std::vector<std::string> parts;
    for (const Json& part : *at) {
        parts.push_back(part.is_string() ? part.get<std::string>() : part.dump());
    }
    return joined(parts, " ");
}

std::string utc_cell(const Json& data, const char* key) {
    const std::int64_t at = data.value(key, std::int64_t{0});
    return at == 0 ? "" : utc_text(at);
}

// What the wall clock of the site showed, from what the entry itself says.
std::string local_cell(const Entry& entry) {
    const std::int64_t local = entry.at_ms + std::int64_t{entry.offset_min} * 60'000;
    const int size = entry.offset_min < 0 ? -entry.offset_min : entry.offset_min;
    return utc_text(local).substr(0, 19) + (entry.offset_min < 0 ? "-" : "+") +
           clock_text(size / 60 * 60 + size % 60);
}

std::string meaning_of(const Entry& entry) {
    const auto signature = entry.data.find("signature");
    return signature == entry.data.end() ? "" : cell_of(*signature, "meaning");
}

template <std::size_t N>
bool is_one_of(const std::string& kind, const std::array<std::string_view, N>& kinds) {
    for (const auto& known : kinds) {
        if (known == kind) return true;
    }
    return false;
}

constexpr std::array<std::string_view, 17> kFindingKinds{
    "finding-entered", "finding-described", "finding-withdrawn",   "limit-decided", "repair-stated",
    "recheck-done",    "returned-to-service", "outcome-told", "lockout-placed", "lockout-removed",
    "work-opened",     "work-step-done",    "work-stopped", "work-finished",
    "tag-issued",      "tag-put-up",        "tag-read"};
constexpr std::array<std::string_view, 3> kReleaseKinds{"release-given", "returned",
                                                        "override-placed"};
constexpr std::array<std::string_view, 8> kTrainingKinds{
    "guide-read", "quiz-finished",    "instructed", "practised",
    "evaluated",  "refresher-opened", "authorised", "authorisation-withdrawn"};

// Every table begins with where its row comes from.
CsvWriter& begin(CsvWriter& csv, const Entry& entry) {
    return csv.number(entry.n).plain(utc_text(entry.at_ms)).plain(local_cell(entry));
}

CsvWriter& cells(CsvWriter& csv, const Json& data, std::initializer_list<const char*> keys) {
    for (const char* key : keys) csv.text(cell_of(data, key));
    return csv;
}

}  // namespace

RecordTables::RecordTables(Database& db)
    : db_(db),
      entries_({"entry", "at_utc", "at_local", "kind", "by", "by_name", "meaning", "about",
                "content", "zone", "boot", "kiosk", "data"}),
      rounds_({"entry", "at_utc", "at_local", "machine", "round_kind", "takeover", "by", "by_name",
               "meaning", "content", "hours", "fuel_percent", "shift_end_utc"}),
      readings_({"entry", "round_signed_utc", "round_signed_local", "machine", "point", "reading",
                 "value", "read_utc", "finding_entry"}),
      findings_({"entry", "at_utc", "at_local", "kind", "about", "findings", "machine", "point",
                 "reading", "outcome", "hazard", "source", "allowed", "until_utc", "fine", "by",
                 "by_name", "words"}),
      releases_({"entry", "at_utc", "at_local", "kind", "machine", "person", "person_name", "room",
                 "until_utc", "round_entry", "limits", "findings", "code", "by"}),
      training_({"entry", "at_utc", "at_local", "kind", "person", "person_name", "class", "topics",
                 "guide", "quiz", "passed", "on", "rooms", "shifts", "by", "by_name", "meaning",
                 "content"}),
      people_({"entry", "at_utc", "at_local", "person", "name", "badge", "language", "duties",
               "endorsements", "extension", "competence", "listed_until"}) {}

Result<std::string> RecordTables::words(const std::string& hash) {
    if (hash.empty()) return std::string();
    return TRY(private_text(db_, hash)).value_or("");
}

Result<std::string> RecordTables::name_of_person(const std::string& person) {
    const auto known = name_hashes_.find(person);
    if (known == name_hashes_.end()) return std::string();
    return words(known->second);
}

Result<std::string> RecordTables::signer(const Entry& entry) {
    const auto signature = entry.data.find("signature");
    if (signature != entry.data.end()) return words(cell_of(*signature, "name"));
    if (entry.by.empty()) return std::string();
    return name_of_person(entry.by.front());
}

Result<void> RecordTables::add(const Entry& entry) {
    if (entry.kind == "person-enrolled") TRY(add_person(entry));
    TRY(add_entry(entry));
    if (entry.kind == "round-signed") {
        TRY(add_round(entry));
        TRY(add_readings(entry));
    }
    if (is_one_of(entry.kind, kFindingKinds)) TRY(add_finding(entry));
    if (is_one_of(entry.kind, kReleaseKinds)) TRY(add_release(entry));
    if (is_one_of(entry.kind, kTrainingKinds)) TRY(add_training(entry));
    return {};
}

Result<void> RecordTables::add_entry(const Entry& entry) {
    begin(entries_, entry)
        .text(entry.kind)
        .text(joined(entry.by, " "))
        .text(TRY(signer(entry)))
        .text(meaning_of(entry))
        .plain(entry.about == 0 ? "" : std::to_string(entry.about))
        .text(entry.content)
        .text(entry.zone)
        .text(entry.boot)
        .text(entry.kiosk)
        .text(entry.data.dump())
        .end_row();
    return {};
}

Result<void> RecordTables::add_round(const Entry& entry) {
    begin(rounds_, entry);
    cells(rounds_, entry.data, {"machine", "round_kind", "takeover"})
        .text(joined(entry.by, " "))
        .text(TRY(signer(entry)))
        .text(meaning_of(entry))
        .text(entry.content);
    cells(rounds_, entry.data, {"hours", "fuel"})
        .plain(utc_cell(entry.data, "shift_end_ms"))
        .end_row();
    return {};
}

Result<void> RecordTables::add_readings(const Entry& entry) {
    const auto readings = entry.data.find("readings");
    if (readings == entry.data.end() || !readings->is_array()) return {};
    for (const Json& reading : *readings) {
        begin(readings_, entry).text(cell_of(entry.data, "machine"));
        cells(readings_, reading, {"point", "reading", "value"})
            .plain(utc_cell(reading, "at_ms"))
            .text(cell_of(reading, "finding"))
            .end_row();
    }
    return {};
}

Result<void> RecordTables::add_finding(const Entry& entry) {
    begin(findings_, entry)
        .text(entry.kind)
        .plain(entry.about == 0 ? "" : std::to_string(entry.about));
    cells(findings_, entry.data,
          {"findings", "machine", "point", "reading", "outcome", "hazard", "source", "allowed"})
        .plain(utc_cell(entry.data, "until_ms"));
    cells(findings_, entry.data, {"fine"})
        .text(joined(entry.by, " "))
        .text(TRY(signer(entry)))
        .text(TRY(words(cell_of(entry.data, "text"))))
        .end_row();
    return {};
}

Result<void> RecordTables::add_release(const Entry& entry) {
    const std::string person = cell_of(entry.data, "person");
    begin(releases_, entry).text(entry.kind);
    cells(releases_, entry.data, {"machine", "person"})
        .text(TRY(name_of_person(person)))
        .text(cell_of(entry.data, "room"))
        .plain(utc_cell(entry.data, "until_ms"));
    cells(releases_, entry.data, {"round", "limits", "findings", "code"})
        .text(joined(entry.by, " "))
        .end_row();
    return {};
}

Result<void> RecordTables::add_training(const Entry& entry) {
    const std::string person = cell_of(entry.data, "person");
    begin(training_, entry).text(entry.kind).text(person).text(TRY(name_of_person(person)));
    cells(training_, entry.data,
          {"class", "topics", "guide", "quiz", "passed", "on", "rooms", "shifts"})
        .text(joined(entry.by, " "))
        .text(TRY(signer(entry)))
        .text(meaning_of(entry))
        .text(entry.content)
        .end_row();
    return {};
}

Result<void> RecordTables::add_person(const Entry& entry) {
    const std::string person = cell_of(entry.data, "person");
    name_hashes_[person] = cell_of(entry.data, "name");
    begin(people_, entry).text(person).text(TRY(name_of_person(person)));
    cells(people_, entry.data, {"badge", "language", "duties", "endorsements", "extension"})
        .text(TRY(words(cell_of(entry.data, "competence"))))
        .text(cell_of(entry.data, "listed_until"))
        .end_row();
    return {};
}

std::map<std::string, std::string> RecordTables::files() const {
    return {{"entries.csv", entries_.bytes()},   {"rounds.csv", rounds_.bytes()},
            {"readings.csv", readings_.bytes()}, {"findings.csv", findings_.bytes()},
            {"releases.csv", releases_.bytes()}, {"training.csv", training_.bytes()},
            {"people.csv", people_.bytes()}};
}

}  // namespace holdpin
