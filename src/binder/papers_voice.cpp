#include "binder/papers_voice.hpp"

#include "binder/table.hpp"
#include "records/privacy.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

constexpr const char* kDash = "\u2013";

}  // namespace

std::string language_of(const Entry& entry) {
    const auto signature = entry.data.find("signature");
    return signature == entry.data.end() ? "" : text_of(*signature, "language");
}

std::vector<std::string> paper_languages(const std::string& of_record) {
    if (of_record.empty() || of_record == "en") return {"en"};
    return {of_record, "en"};
}

std::string PaperVoice::say(std::string_view key, Args args) const {
    const auto at = pack().strings.find(std::string(key));
    if (at == pack().strings.end()) return std::string(key);
    std::string text = at->second.in(language_);
    for (const auto& [name, value] : args) {
        const std::string braced = "{" + std::string(name) + "}";
        const auto place = text.find(braced);
        if (place != text.npos) text.replace(place, braced.size(), value);
    }
    return text;
}

std::string PaperVoice::word(std::string_view head, const std::string& word) const {
    const std::string key = std::string(head) + word;
    return pack().strings.contains(key) ? say(key) : word;
}

std::string PaperVoice::footing(std::string_view id, bool is_truck) const {
    const Footing* found = pack().footing(id);
    if (found == nullptr) return "";
    const std::string kind = "footing." + std::string(name_of(found->kind_for(is_truck)));
    return say(kind) + " · " + say(found->citation);
}

std::string PaperVoice::date(Date date) const {
    return say("date.full", {{"day", std::to_string(date.day)},
                             {"month", say("date.month-" + std::to_string(date.month))},
                             {"year", std::to_string(date.year)}});
}

std::string PaperVoice::date(const std::string& iso) const {
    const auto read = parse_date(iso);
    return read.ok() ? date(read.value()) : iso.empty() ? kDash : iso;
}

std::string PaperVoice::when(std::int64_t ms) const {
    if (ms == 0) return kDash;
    return at_clock(material_.zone.local(ms));
}

std::string PaperVoice::when(const Entry& entry, std::int64_t ms) const {
    return ms == 0 ? kDash : at_clock(local_time(entry, ms));
}

std::string PaperVoice::at_clock(const LocalTime& local) const {
    return date(local.date) + ", " + clock_text(local.minute);
}

std::string PaperVoice::utc(std::int64_t ms) const {
    std::string text = utc_text(ms).substr(0, 19) + " UTC";
    text[10] = ' ';
    return text;
}

std::string PaperVoice::employer() const {
    const std::string& named = material_.content.site.employer;
    return named.empty() ? site() : named;
}

std::string PaperVoice::class_name(const std::string& id) const {
    const MachineClass* found = pack().machine_class(id);
    return found == nullptr ? id : say(found->name);
}

std::string PaperVoice::topic_name(const std::string& machine_class, const std::string& id) const {
    const MachineClass* found = pack().machine_class(machine_class);
    if (found == nullptr) return id;
    for (const Topic& topic : found->topics) {
        if (topic.id == id) return say(topic.name);
    }
    return id;
}

Result<std::string> PaperVoice::hidden(const std::string& hash) const {
    if (hash.empty()) return std::string(kDash);
    const auto found = TRY(private_text(material_.db, hash));
    return found ? *found : say("papers.erased");
}

Result<bool> PaperVoice::knows(const std::string& person) const {
    const auto at = names_.find(person);
    return at != names_.end() && TRY(private_text(material_.db, at->second)).has_value();
}

Result<std::string> PaperVoice::name(const std::string& person) const {
    if (person.empty()) return say("papers.nobody");
    const auto at = names_.find(person);
    const auto found = at == names_.end() ? std::nullopt
                                          : TRY(private_text(material_.db, at->second));
    return (found ? *found : say("papers.name-erased")) + " (" + person + ")";
}

Result<std::string> PaperVoice::names(const std::vector<std::string>& people) const {
    std::vector<std::string> all;
    for (const std::string& person : people) all.push_back(TRY(name(person)));
    return all.empty() ? say("papers.nobody") : joined(all, "; ");
}

// The name stands in the signature of that place, else as it was last enrolled.
Result<std::string> PaperVoice::signed_name(const Entry& entry, std::size_t place) const {
    const auto signature = entry.data.find(place == 0 ? "signature" : "second_signature");
    const std::string hash =
        signature == entry.data.end() ? "" : text_of(*signature, "name");
    if (hash.empty() || place > 1) return name(place < entry.by.size() ? entry.by[place] : "");
    const auto known = TRY(private_text(material_.db, hash));
    const std::string id = place < entry.by.size() ? " (" + entry.by[place] + ")" : "";
    return (known ? *known : say("papers.name-erased")) + id;
}

Result<std::string> PaperVoice::signer(const Entry& entry) const { return signed_name(entry, 0); }

Result<std::string> PaperVoice::signers(const Entry& entry) const {
    std::vector<std::string> all{TRY(signer(entry))};
    for (std::size_t i = 1; i < entry.by.size(); ++i) all.push_back(TRY(signed_name(entry, i)));
    return joined(all, "; ");
}

Result<std::string> PaperVoice::disputes(const Entry& entry) const {
    std::vector<std::string> lines;
    for (const Disagreement& note : TRY(disagreements_about(material_.db, entry.n))) {
        const Entry said = TRY(material_.ledger.at(note.entry));
        lines.push_back(say("papers.disputed-by", {{"name", TRY(signer(said))},
                                                   {"number", std::to_string(note.entry)},
                                                   {"time", when(said)},
                                                   {"words", TRY(hidden(note.text_hash))}}));
    }
    return joined(lines, "\n");
}

Result<std::vector<PaperBlock>> PaperVoice::signature(const Entry& entry) const {
    std::vector<PaperBlock> blocks{PaperHeading{say("papers.signed"), 3}};
    const LocalTime local = local_time(entry, entry.at_ms);
    std::string at = at_clock(local) + ":" + (local.second < 10 ? "0" : "") +
                     std::to_string(local.second) + " (" + entry.zone + ")\n" + utc(entry.at_ms);
    PaperFields fields;
    const auto signature = entry.data.find("signature");
    if (signature == entry.data.end()) {
        const bool is_old = text_of(entry.data, "source") == "brought-along";
        blocks.push_back(
            PaperParagraph{say(is_old ? "papers.brought-along" : "papers.unsigned")});
        fields.rows = {{say("papers.by"), TRY(names(entry.by))},
                       {say("papers.entered"), std::move(at)}};
    } else {
        fields.rows = {{say("papers.by"), TRY(signer(entry))},
                       {say("papers.meaning"),
                        word("papers.meaning-", text_of(*signature, "meaning"))},
                       {say("papers.signed-at"), std::move(at)}};
    }
    const auto second = entry.data.find("second_signature");
    if (second != entry.data.end() && entry.by.size() > 1) {
        fields.rows.push_back({say("papers.second"), TRY(signed_name(entry, 1))});
        fields.rows.push_back({say("papers.second-meaning"),
                               word("papers.meaning-", text_of(*second, "meaning"))});
    }
    fields.rows.push_back({say("papers.entry"), std::to_string(entry.n)});
    if (!entry.content.empty()) {
        fields.rows.push_back({say("papers.content"), entry.content.substr(0, 16) + "…"});
    }
    if (std::string disputed = TRY(disputes(entry)); !disputed.empty()) {
        fields.rows.push_back({say("papers.disputed"), std::move(disputed)});
    }
    blocks.push_back(std::move(fields));
    return blocks;
}

PaperPart PaperVoice::part(const std::string& title) const {
    PaperPart part;
    part.language = language_;
    part.footer = site() + " · " + title + " · " + say("papers.footer");
    part.pages = say("papers.page");
    return part;
}

}  // namespace holdpin
