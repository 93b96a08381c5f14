#include "binder/papers_holds.hpp"

#include <algorithm>

#include "binder/papers_rounds.hpp"

namespace holdpin {
namespace {

struct FindingWords {
    std::string title;
    std::string point;
};

FindingWords finding_words(const PaperVoice& voice, const Entry& finding) {
    const std::string id = text_of(finding.data, "point");
    const std::string hazard = voice.word("hazard.", text_of(finding.data, "hazard"));
    const auto shown = round_shown(voice.material(), finding.content, "");
    const Point* point = shown ? shown->find(id) : nullptr;
    if (point == nullptr) {
        return {hazard + ": " + voice.word("papers.reading-", text_of(finding.data, "reading")),
                voice.word("papers.point-", id)};
    }
    FindingWords words{voice.say(point->question), voice.say(point->question)};
    for (const Reading& reading : point->readings) {
        const bool is_it = reading.id == text_of(finding.data, "reading");
        if (is_it && !reading.finding.empty()) words.title = voice.say(reading.finding);
    }
    if (point->number) words.title = voice.say(point->number->finding);
    return words;
}

std::string step_words(const PaperVoice& voice, const Entry& entry) {
    const std::string head = "papers.step-";
    if (entry.kind == "limit-decided" && !entry.data.value("allowed", true)) {
        return voice.say("papers.step-limit-refused");
    }
    if (entry.kind == "recheck-done") {
        return voice.say(entry.data.value("fine", false) ? "papers.step-recheck-fine"
                                                         : "papers.step-recheck-not-fine");
    }
    return voice.word(head, entry.kind);
}

Result<PaperTable> steps_table(const PaperVoice& voice, const FindingChain& chain) {
    PaperTable table{{2.4, 3, 3, 3, 1},
                     {voice.say("papers.time"), voice.say("papers.step"), voice.say("papers.by"),
                      voice.say("papers.words"), voice.say("papers.entry")},
                     {}};
    for (const Entry& entry : chain) {
        std::string words = TRY(voice.hidden(text_of(entry.data, "text")));
        if (entry.kind == "limit-decided" && number_of(entry.data, "until_ms") != 0) {
            words += " · " + voice.say("papers.until",
                                       {{"time", voice.when(number_of(entry.data, "until_ms"))}});
        }
        for (const std::string& stated : list_of(entry.data, "stated")) {
            const bool at_once = entry.kind == "finding-secured";
            words += "\n" + voice.word(at_once ? "no-start.did-" : "repair.tick-", stated);
        }
        if (const std::string disputed = TRY(voice.disputes(entry)); !disputed.empty()) {
            words += "\n" + voice.say("papers.disputed") + ": " + disputed;
        }
        table.rows.push_back({voice.when(entry), step_words(voice, entry),
                              TRY(voice.signers(entry)), std::move(words),
                              std::to_string(entry.n)});
    }
    return table;
}

bool is_closed(const FindingChain& chain) {
    return std::any_of(chain.begin(), chain.end(), [](const Entry& entry) {
        return entry.kind == "returned-to-service" || entry.kind == "finding-withdrawn";
    });
}

Result<void> add_chain(const PaperVoice& voice, const FindingChain& chain, PaperPart& part) {
    const Entry& finding = chain.front();
    const FindingWords words = finding_words(voice, finding);
    part.blocks.push_back(
        PaperHeading{std::to_string(finding.n) + " · " + words.title, 2});
    PaperFields fields;
    fields.rows = {
        {voice.say("papers.point"), words.point},
        {voice.say("papers.found-by"), TRY(voice.signer(finding))},
        {voice.say("papers.outcome"),
         voice.word("papers.outcome-", text_of(finding.data, "outcome"))},
        {voice.say("papers.state"),
         voice.say(is_closed(chain) ? "papers.state-closed" : "papers.state-open")}};
    part.blocks.push_back(std::move(fields));
    part.blocks.push_back(TRY(steps_table(voice, chain)));
    if (chain.back().kind == "returned-to-service") {
        for (auto& block : TRY(voice.signature(chain.back()))) {
            part.blocks.push_back(std::move(block));
        }
    }
    return {};
}

}  // namespace

Result<Paper> holds_paper(const BinderMaterial& material, const NameHashes& names,
                          const FindingYear& year) {
    const auto title_in = [&](const PaperVoice& voice) {
        return voice.say("papers.holds", {{"machine", year.machine}, {"year", year.year}});
    };
    std::vector<FindingChain> chains;
    for (const auto& [finding, numbers] : year.chains) {
        FindingChain& chain = chains.emplace_back();
        for (const std::int64_t n : numbers) chain.push_back(TRY(material.ledger.at(n)));
    }
    const auto languages = paper_languages(material.content.site.language);
    const PaperVoice first(material, names, languages.front());
    Paper paper;
    paper.title = title_in(first);
    paper.author = first.site();
    paper.subject = year.machine;
    for (const FindingChain& chain : chains) {
        paper.at_ms = std::max(paper.at_ms, chain.back().at_ms);
    }
    for (const std::string& language : languages) {
        const PaperVoice voice(material, names, language);
        PaperPart part = voice.part(title_in(voice));
        part.blocks = {PaperHeading{title_in(voice), 1},
                       PaperParagraph{voice.say("papers.holds-basis"), true}};
        for (const FindingChain& chain : chains) TRY(add_chain(voice, chain, part));
        paper.parts.push_back(std::move(part));
    }
    return paper;
}

}  // namespace holdpin
