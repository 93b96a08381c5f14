#include "binder/papers_lockout.hpp"

namespace holdpin {
namespace {

// Entries of earlier versions name the class alone.
std::string machine_of(const PaperVoice& voice, const Entry& entry) {
    const std::string plate = text_of(entry.data, "machine");
    const std::string machine_class = voice.class_name(text_of(entry.data, "machine_class"));
    if (plate.empty()) return machine_class;
    return machine_class.empty() ? plate : plate + " · " + machine_class;
}

std::string procedure_of(const PaperVoice& voice, const Entry& entry) {
    return voice.word("papers.procedure-", text_of(entry.data, "procedure"));
}

Result<PaperPart> inspection_part(const PaperVoice& voice, const Entry& entry,
                                  const std::string& proof) {
    const std::string title = voice.say("papers.lockout");
    PaperPart part = voice.part(title);
    PaperFields fields;
    fields.rows = {
        {voice.say("papers.machine"), machine_of(voice, entry)},
        {voice.say("papers.procedure"), procedure_of(voice, entry)},
        {voice.say("papers.inspected-on"), voice.when(entry)},
        {voice.say("papers.employees"), TRY(voice.names(list_of(entry.data, "people")))},
        {voice.say("papers.inspector"), TRY(voice.signer(entry))},
        {voice.say("papers.employer"), voice.employer()},
        {voice.say("papers.remarks"), TRY(voice.hidden(text_of(entry.data, "remarks")))}};
    part.blocks = {PaperHeading{title, 1}, std::move(fields)};
    for (auto& block : TRY(voice.signature(entry))) part.blocks.push_back(std::move(block));
    part.blocks.push_back(PaperParagraph{voice.say("papers.lockout-basis"), true});
    if (proof.empty()) {
        part.blocks.push_back(PaperParagraph{voice.say("papers.no-proof"), true});
    } else {
        part.blocks.push_back(PaperQr{proof, 74, voice.say("papers.proof")});
    }
    return part;
}

}  // namespace

Result<Paper> lockout_paper(const BinderMaterial& material, const NameHashes& names,
                            const Entry& inspected, const std::string& proof) {
    const std::string signed_in = language_of(inspected);
    const auto languages =
        paper_languages(signed_in.empty() ? material.content.site.language : signed_in);
    const PaperVoice first(material, names, languages.front());
    Paper paper;
    paper.title = first.say("papers.lockout") + " · " + machine_of(first, inspected);
    paper.author = first.site();
    paper.subject = procedure_of(first, inspected);
    paper.at_ms = inspected.at_ms;
    for (const std::string& language : languages) {
        const PaperVoice voice(material, names, language);
        paper.parts.push_back(TRY(inspection_part(voice, inspected, proof)));
    }
    return paper;
}

}  // namespace holdpin
