#include "binder/papers_about.hpp"

#include <algorithm>

#include "records/privacy.hpp"
#include "records/records.hpp"
#include "records/retention.hpp"

namespace holdpin {
namespace {

using Records = std::vector<const RecordAbout*>;

// What it was about: the machine, the room, the class, the guide.
std::string subject_of(const PaperVoice& voice, const Entry& entry) {
    const Content& content = voice.material().content;
    if (const std::string plate = text_of(entry.data, "machine"); !plate.empty()) return plate;
    const Room* room = content.room(text_of(entry.data, "room"));
    if (room != nullptr) return voice.say(room->name);
    const std::string machine_class = text_of(entry.data, "class");
    if (!machine_class.empty()) return voice.class_name(machine_class);
    const Guide* guide = voice.pack().guide(text_of(entry.data, "guide"));
    return guide == nullptr ? "" : voice.say(guide->title);
}

std::string kind_of(const PaperVoice& voice, const std::string& kind) {
    const std::string key = "about.kind-" + kind;
    const std::string words = voice.say(key);
    return words == key ? voice.say("about.kind-unknown", {{"kind", kind}}) : words;
}

// What was done, on what, and the words that were written with it.
Result<std::string> words_of(const PaperVoice& voice, const Entry& entry) {
    std::string words = kind_of(voice, entry.kind);
    if (const std::string subject = subject_of(voice, entry); !subject.empty()) {
        words += " · " + subject;
    }
    if (const std::string text = text_of(entry.data, "text"); !text.empty()) {
        words += "\n“" + TRY(voice.hidden(text)) + "”";
    }
    return words;
}

std::string class_kept(const PaperVoice& voice, const RetentionClass& one) {
    if (!one.purge) return voice.say("about.never");
    if (!one.from_employment && one.years == 1) return voice.say("about.one-year");
    const char* key = one.from_employment ? "about.while-employed" : "about.years";
    return voice.say(key, {{"years", std::to_string(one.years)}});
}

std::string kept_until(const PaperVoice& voice, const Kept& kept) {
    if (kept.held) return voice.say("about.held");
    if (kept.one == nullptr) return voice.say("about.no-class");
    if (!kept.one->purge || !kept.until) return class_kept(voice, *kept.one);
    return voice.say("about.until", {{"date", voice.date(*kept.until)}});
}

std::string duties_of(const PaperVoice& voice, const Person& person) {
    std::vector<std::string> names;
    for (const DutyRule& rule : voice.pack().duties) {
        const auto& has = person.duties;
        if (std::find(has.begin(), has.end(), rule.duty) != has.end()) {
            names.push_back(voice.say(rule.name));
        }
    }
    return names.empty() ? voice.date(std::string()) : joined(names, ", ");
}

PaperFields own_line(const PaperVoice& voice, const Person& person, std::size_t count) {
    PaperFields fields;
    fields.rows = {{voice.say("about.name"), person.name + " (" + person.id + ")"},
                   {voice.say("papers.employer"), voice.employer()},
                   {voice.say("about.badge"), person.badge},
                   {voice.say("about.language"), voice.word("about-paper.language-",
                                                            person.language)},
                   {voice.say("about.duties"), duties_of(voice, person)}};
    if (!person.extension.empty()) {
        fields.rows.push_back({voice.say("about-paper.extension"), person.extension});
    }
    if (!person.competence.empty()) {
        fields.rows.push_back({voice.say("about.competence"), person.competence});
    }
    fields.rows.push_back({voice.say("about-paper.records"), std::to_string(count)});
    fields.rows.push_back({voice.say("about-paper.printed"), voice.when(voice.material().now_ms)});
    return fields;
}

Result<PaperTable> record_table(const PaperVoice& voice, const Records& records) {
    PaperTable table{{11, 25, 42, 26, 26},
                     {voice.say("papers.entry"), voice.say("about.when"),
                      voice.say("about-paper.what"), voice.say("about.by"),
                      voice.say("about.kept")},
                     {}};
    for (const RecordAbout* record : records) {
        const Entry& entry = record->entry;
        const std::string by =
            entry.by.empty() ? voice.say("about.by-kiosk") : TRY(voice.names(entry.by));
        table.rows.push_back({std::to_string(entry.n), voice.when(entry),
                              TRY(words_of(voice, entry)), by, kept_until(voice, record->kept)});
    }
    return table;
}

Result<void> add_class(const PaperVoice& voice, const RetentionClass& one, const Records& records,
                       PaperPart& part) {
    part.blocks.push_back(
        PaperHeading{voice.say(one.name) + " · " + std::to_string(records.size()), 2});
    part.blocks.push_back(PaperParagraph{
        voice.say("about.kept") + ": " + class_kept(voice, one) + ". " + voice.say(one.why) +
            " " + voice.say("about.seen-by") + ": " + voice.say(one.who) + ". " +
            voice.footing(one.footing, false),
        true});
    part.blocks.push_back(TRY(record_table(voice, records)));
    return {};
}

Result<void> add_records(const PaperVoice& voice, const std::vector<RecordAbout>& records,
                         PaperPart& part) {
    for (const RetentionClass& one : voice.pack().retention) {
        Records of_class;
        for (const RecordAbout& record : records) {
            if (record.kept.one == &one) of_class.push_back(&record);
        }
        if (!of_class.empty()) TRY(add_class(voice, one, of_class, part));
    }
    Records rest;
    for (const RecordAbout& record : records) {
        if (record.kept.one == nullptr) rest.push_back(&record);
    }
    if (rest.empty()) return {};
    part.blocks.push_back(PaperHeading{voice.say("about-paper.no-class"), 2});
    part.blocks.push_back(TRY(record_table(voice, rest)));
    return {};
}

Result<void> add_disagreements(const PaperVoice& voice, const std::string& person,
                               PaperPart& part) {
    part.blocks.push_back(PaperHeading{voice.say("about-paper.disagreements"), 2});
    const auto notes = TRY(disagreements_of(voice.material().db, person));
    PaperTable table{{14, 30, 86},
                     {voice.say("about-paper.about-entry"), voice.say("about.when"),
                      voice.say("about.words")},
                     {}};
    for (const Disagreement& note : notes) {
        table.rows.push_back({std::to_string(note.about), voice.when(note.at_ms),
                              TRY(voice.hidden(note.text_hash))});
    }
    if (!notes.empty()) part.blocks.push_back(std::move(table));
    part.blocks.push_back(PaperParagraph{voice.say("about-paper.disagree-how")});
    return {};
}

Result<PaperPart> about_part(const PaperVoice& voice, const Person& person,
                             const std::vector<RecordAbout>& records) {
    const std::string title = voice.say("about-paper.title");
    PaperPart part = voice.part(title);
    part.blocks = {PaperHeading{title, 1}, own_line(voice, person, records.size()),
                   PaperParagraph{voice.say("about-paper.remark")}};
    TRY(add_records(voice, records, part));
    TRY(add_disagreements(voice, person.id, part));
    part.blocks.push_back(PaperHeading{voice.say("about-paper.beside"), 2});
    for (const char* key : {"about-paper.beside-pin", "about-paper.beside-draft",
                            "about-paper.beside-name", "about-paper.beside-not"}) {
        part.blocks.push_back(PaperParagraph{voice.say(key)});
    }
    part.blocks.push_back(PaperParagraph{voice.say("about.text-remark"), true});
    return part;
}

// The names of everybody who did one of the records.
Result<NameHashes> names_in(Database& db, const std::vector<RecordAbout>& records) {
    NameHashes names;
    for (const RecordAbout& record : records) {
        for (const std::string& person : record.entry.by) {
            if (!names.contains(person)) names[person] = TRY(name_hash_of(db, person));
        }
    }
    return names;
}

}  // namespace

Result<Paper> about_paper(const BinderMaterial& material, const Person& person) {
    const auto records =
        TRY(records_about(material.db, material.content.pack, material.zone, person.id));
    const NameHashes names = TRY(names_in(material.db, records));
    const auto languages = paper_languages(person.language);
    const PaperVoice first(material, names, languages.front());
    Paper paper;
    paper.title = first.say("about-paper.title") + " · " + person.name;
    paper.author = first.site();
    paper.subject = first.say("about-paper.title");
    paper.at_ms = material.now_ms;
    for (const std::string& language : languages) {
        const PaperVoice voice(material, names, language);
        paper.parts.push_back(TRY(about_part(voice, person, records)));
    }
    return paper;
}

}  // namespace holdpin
