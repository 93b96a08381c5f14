#include "binder/papers_rounds.hpp"

#include <map>
#include <utility>

#include "binder/table.hpp"
#include "content/content.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

struct ReadWords {
    std::string question;
    std::string answer;
    std::string outcome;
};

ReadWords words_of(const PaperVoice& voice, const Round* round, const nlohmann::json& reading) {
    const std::string id = text_of(reading, "point");
    const std::string value = text_of(reading, "value");
    const Point* point = round == nullptr ? nullptr : round->find(id);
    const std::int64_t finding = number_of(reading, "finding");
    ReadWords words{id, value.empty() ? text_of(reading, "reading") : value,
                    finding == 0 ? voice.say("papers.outcome-fine") : voice.say("papers.finding")};
    if (point == nullptr) return words;
    words.question = voice.say(point->question);
    if (!value.empty() && point->number) words.answer = value + " " + point->number->unit;
    for (const Reading& one : point->readings) {
        if (one.id != text_of(reading, "reading")) continue;
        words.answer = voice.say(one.label);
        words.outcome = voice.say("papers.outcome-" + std::string(name_of(one.outcome)));
    }
    return words;
}

PaperTable readings_table(const PaperVoice& voice, const Round* round, const Entry& entry) {
    PaperTable table{{5, 4, 2.6, 1.4},
                     {voice.say("papers.point"), voice.say("papers.reading"),
                      voice.say("papers.outcome"), voice.say("papers.time")},
                     {}};
    const auto readings = entry.data.find("readings");
    if (readings == entry.data.end() || !readings->is_array()) return table;
    for (const auto& reading : *readings) {
        const ReadWords words = words_of(voice, round, reading);
        const std::int64_t finding = number_of(reading, "finding");
        const std::int64_t at_ms = number_of(reading, "at_ms");
        table.rows.push_back({words.question, words.answer,
                              words.outcome + (finding == 0 ? "" : " · " + std::to_string(finding)),
                              at_ms == 0 ? "" : clock_text(local_time(entry, at_ms).minute)});
    }
    return table;
}

// Of each round as it was shown once; a month has few.
class ShownRounds {
  public:
    explicit ShownRounds(const BinderMaterial& material) : material_(material) {}
    const Round* of(const Entry& entry) {
        const std::string id = text_of(entry.data, "round");
        auto known = known_.find({entry.content, id});
        if (known == known_.end()) {
            known = known_.emplace(std::pair(entry.content, id),
                                   round_shown(material_, entry.content, id)).first;
        }
        return known->second ? &*known->second : nullptr;
    }

  private:
    const BinderMaterial& material_;
    std::map<std::pair<std::string, std::string>, std::optional<Round>> known_;
};

Result<void> add_round(const PaperVoice& voice, const Round* round, const Entry& entry,
                       PaperPart& part) {
    const std::string hours = text_of(entry.data, "hours");
    const std::string fuel = text_of(entry.data, "fuel");
    part.blocks.push_back(PaperHeading{
        (round != nullptr ? voice.say(round->title) : voice.say("papers.round")) + " · " +
            voice.when(entry), 2});
    PaperFields fields;
    fields.rows = {
        {voice.say("papers.machine"), text_of(entry.data, "machine")},
        {voice.say("papers.walked-by"), TRY(voice.signer(entry))},
        {voice.say("papers.started"), voice.when(entry, number_of(entry.data, "started_ms"))},
        {voice.say("papers.counts-to"), voice.when(number_of(entry.data, "shift_end_ms"))},
        {voice.say("papers.findings"), std::to_string(number_of(entry.data, "findings"))}};
    if (!hours.empty()) fields.rows.push_back({voice.say("papers.hours"), hours + " h"});
    if (!fuel.empty()) fields.rows.push_back({voice.say("papers.fuel"), fuel + " %"});
    if (entry.data.value("takeover", false)) {
        fields.rows.push_back({voice.say("papers.kind"), voice.say("papers.takeover")});
    }
    part.blocks.push_back(std::move(fields));
    part.blocks.push_back(readings_table(voice, round, entry));
    for (auto& block : TRY(voice.signature(entry))) part.blocks.push_back(std::move(block));
    return {};
}

}  // namespace

std::optional<Round> round_shown(const BinderMaterial& material, const std::string& digest,
                                 const std::string& id) {
    if (!digest.empty()) {
        const auto stored = content_of(material.db, digest);
        if (stored.ok() && stored.value()) {
            const auto thawed = thawed_round(*stored.value());
            if (thawed.ok()) return thawed.value();
        }
    }
    const Round* now = material.content.pack.round(id);
    return now == nullptr ? std::nullopt : std::optional(*now);
}

// Signed in more than one language, all of them come in each.
Result<Paper> rounds_paper(const BinderMaterial& material, const NameHashes& names,
                           const RoundMonth& month) {
    std::vector<PaperVoice> voices;
    for (const auto& language : month.languages) voices.emplace_back(material, names, language);
    voices.emplace_back(material, names, "en");
    Paper paper;
    const auto title_in = [&](const PaperVoice& voice) {
        return voice.say("papers.rounds", {{"machine", month.machine}});
    };
    const PaperVoice& first = voices.front();
    paper.title = title_in(first);
    paper.author = first.site();
    paper.subject = first.date(month.first);
    paper.at_ms = month.last_ms;
    for (const PaperVoice& voice : voices) {
        paper.parts.push_back(voice.part(title_in(voice)));
        paper.parts.back().blocks = {PaperHeading{title_in(voice), 1}};
    }
    ShownRounds shown(material);
    for (const std::int64_t n : month.entries) {
        const Entry entry = TRY(material.ledger.at(n));
        for (std::size_t i = 0; i < voices.size(); ++i) {
            TRY(add_round(voices[i], shown.of(entry), entry, paper.parts[i]));
        }
    }
    return paper;
}

}  // namespace holdpin
