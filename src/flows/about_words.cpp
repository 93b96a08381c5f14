#include "flows/about_words.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "base_json/values.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

// What it was about: the machine, the room, the class, the guide or quiz.
std::string subject_of(const Say& say, const Content& content, const Entry& entry) {
    const std::string machine = text_of(entry.data, "machine");
    if (!machine.empty()) return machine;
    const std::string room = text_of(entry.data, "room");
    if (const Room* found = content.room(room)) return say(found->name);
    const std::string machine_class = text_of(entry.data, "class");
    if (const MachineClass* found = content.pack.machine_class(machine_class)) {
        return say(found->short_name);
    }
    const std::string guide = text_of(entry.data, "guide");
    if (const Guide* found = content.pack.guide(guide)) return say(found->title);
    const std::string language = text_of(entry.data, "language");
    return language.empty() ? "" : say("about-paper.language-" + language);
}

std::string local_time(const Zone& zone, std::int64_t ms) {
    const LocalTime local = zone.local(ms);
    return iso_date(local.date) + " " + clock_text(local.minute);
}

std::string until_words(const Say& say, const Kept& kept) {
    if (kept.held) return say("about.held");
    if (kept.one == nullptr) return say("about.no-class");
    if (!kept.one->purge) return say("about.never");
    if (!kept.until) return kept_words(say, *kept.one);
    return say("about.until", {{"date", iso_date(*kept.until)}});
}

std::string personal_lines(const Say& say, const Person& person) {
    std::vector<std::string> duties;
    for (const Duty duty : person.duties) duties.push_back(say.duty(duty));
    std::string lines = say("about.name") + ": " + person.name + "\n";
    lines += say("about.badge") + ": " + person.badge + "\n";
    lines += say("about.language") + ": " + person.language + "\n";
    lines += say("about.duties") + ": " + joined(duties, ", ") + "\n";
    if (!person.competence.empty()) {
        lines += say("about.competence") + ": " + person.competence + "\n";
    }
    return lines;
}

Result<std::string> free_text(Database& db, const Entry& entry) {
    const std::string hash = text_of(entry.data, "text");
    if (hash.empty()) return std::string();
    return TRY(private_text(db, hash)).value_or("");
}

Result<Json> record_json(Database& db, const Say& say, const Content& content,
                         const RecordAbout& record) {
    const Entry& entry = record.entry;
    return Json{{"entry", entry.n},
                {"kind", entry.kind},
                {"words", record_words(say, content, entry)},
                {"time", utc_text(entry.at_ms)},
                {"by", entry.by},
                {"class", record.kept.one == nullptr ? "" : record.kept.one->id},
                {"kept_until", record.kept.until ? iso_date(*record.kept.until) : ""},
                {"legal_hold", record.kept.held},
                {"text", TRY(free_text(db, entry))},
                {"data", entry.data}};
}

Json class_json(const Say& say, const RecordGroup& group) {
    const RetentionClass& one = *group.one;
    return {{"class", one.id},     {"name", say(one.name)}, {"count", group.records.size()},
            {"kept", kept_words(say, one)}, {"why", say(one.why)}, {"seen_by", say(one.who)},
            {"source", say.footing(one.footing, false)}};
}

}  // namespace

std::string record_words(const Say& say, const Content& content, const Entry& entry) {
    const std::string key = "about.kind-" + entry.kind;
    std::string words = say(key);
    if (words == key) words = say("about.kind-unknown", {{"kind", entry.kind}});
    const std::string subject = subject_of(say, content, entry);
    return subject.empty() ? words : words + " · " + subject;
}

std::string kept_words(const Say& say, const RetentionClass& one) {
    if (!one.purge) return say("about.never");
    if (!one.from_employment && one.years == 1) return say("about.one-year");
    const char* key = one.from_employment ? "about.while-employed" : "about.years";
    return say(key, {{"years", std::to_string(one.years)}});
}

std::vector<RecordGroup> in_groups(const Pack& pack, const std::vector<RecordAbout>& records) {
    std::vector<RecordGroup> groups;
    for (const RetentionClass& one : pack.retention) {
        RecordGroup group{&one, {}};
        for (const RecordAbout& record : records) {
            if (record.kept.one == &one) group.records.push_back(&record);
        }
        if (!group.records.empty()) groups.push_back(std::move(group));
    }
    return groups;
}

Result<AboutPerson> about_person(Database& db, const Content& content, const Zone& zone,
                                 const Person& person, const Say& say) {
    const auto records = TRY(records_about(db, content.pack, zone, person.id));
    AboutPerson about;
    about.text = say("about.title", {{"name", person.name}}) + "\n\n" +
                 personal_lines(say, person) + "\n" + say("about.text-remark") + "\n";
    Json classes = Json::array();
    Json rows = Json::array();
    for (const RecordGroup& group : in_groups(content.pack, records)) {
        classes.push_back(class_json(say, group));
        about.text += fmt::format("\n{}: {}\n  {}. {}\n  {}: {}\n  {}\n", say(group.one->name),
                                  group.records.size(), kept_words(say, *group.one),
                                  say(group.one->why), say("about.seen-by"), say(group.one->who),
                                  say.footing(group.one->footing, false));
        for (const RecordAbout* record : group.records) {
            const std::string words = TRY(free_text(db, record->entry));
            about.text += fmt::format("  #{}  {}  {}  [{}]{}\n", record->entry.n,
                                      local_time(zone, record->entry.at_ms),
                                      record_words(say, content, record->entry),
                                      until_words(say, record->kept),
                                      words.empty() ? "" : "  \"" + words + "\"");
        }
    }
    for (const RecordAbout& record : records) {
        rows.push_back(TRY(record_json(db, say, content, record)));
    }
    const Json all{{"person", person.id},   {"name", person.name},   {"badge", person.badge},
                   {"language", person.language}, {"classes", classes}, {"records", rows}};
    about.json = all.dump(2) + "\n";
    return about;
}

}  // namespace holdpin
