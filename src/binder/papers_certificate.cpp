#include "binder/papers_certificate.hpp"

#include <algorithm>
#include <set>

#include "binder/table.hpp"

namespace holdpin {
namespace {

// "1 Nov 2026 to 5 Nov 2026", or one date where they are the same.
std::string span_of(const PaperVoice& voice, const std::set<std::string>& dates) {
    if (dates.empty()) return voice.date(std::string());
    if (dates.size() == 1) return voice.date(*dates.begin());
    return voice.say("papers.from-to", {{"from", voice.date(*dates.begin())},
                                        {"to", voice.date(*dates.rbegin())}});
}

// What was brought along has its own date; that of the entry is when it was typed in.
std::string evaluated_on(const Entry& entry) {
    const std::string on = text_of(entry.data, "on");
    if (!on.empty()) return on;
    const bool is_old = text_of(entry.data, "source") == "brought-along";
    return is_old ? "" : iso_date(local_date(entry));
}

struct Training {
    std::set<std::string> dates;
    std::set<std::string> trainers;
};

Training training_of(const CertificateFacts& facts) {
    Training all;
    for (const auto& [topic, training] : facts.topics) {
        for (const auto& on : {training.instructed_on, training.practised_on}) {
            if (!on.empty()) all.dates.insert(on);
        }
        for (const auto& by : {training.instructed_by, training.practised_by}) {
            if (!by.empty()) all.trainers.insert(by);
        }
    }
    return all;
}

// Which of the four items is not there, and whether the signature is; ends of keys of words.
Result<std::vector<std::string>> missing_items(const PaperVoice& voice,
                                               const CertificateFacts& facts) {
    const Entry& entry = facts.evaluated;
    const Training training = training_of(facts);
    std::set<std::string> people = training.trainers;
    if (!entry.by.empty()) people.insert(entry.by.front());
    bool is_anybody_named = false;
    for (const std::string& person : people) {
        is_anybody_named = is_anybody_named || TRY(voice.knows(person));
    }
    std::vector<std::string> missing;
    if (!TRY(voice.knows(text_of(entry.data, "person")))) missing.emplace_back("name");
    if (training.dates.empty()) missing.emplace_back("training");
    if (!parse_date(evaluated_on(entry)).ok()) missing.emplace_back("evaluation");
    if (!is_anybody_named) missing.emplace_back("trainer");
    if (!entry.data.contains("signature")) missing.emplace_back("signature");
    return missing;
}

Result<PaperFields> four_fields(const PaperVoice& voice, const CertificateFacts& facts) {
    const Entry& entry = facts.evaluated;
    const auto [dates, trainers] = training_of(facts);
    PaperFields fields;
    fields.rows = {
        {voice.say("papers.operator"), TRY(voice.name(text_of(entry.data, "person")))},
        {voice.say("papers.employer"), voice.employer()},
        {voice.say("papers.machine-class"), voice.class_name(text_of(entry.data, "class"))},
        {voice.say("papers.trained-on"), span_of(voice, dates)},
        {voice.say("papers.evaluated-on"), voice.date(evaluated_on(entry))},
        {voice.say("papers.trained-by"),
         TRY(voice.names({trainers.begin(), trainers.end()}))},
        {voice.say("papers.evaluated-by"), TRY(voice.signer(entry))}};
    if (const std::string text = text_of(entry.data, "text"); !text.empty()) {
        fields.rows.push_back({voice.say("papers.watched"), TRY(voice.hidden(text))});
    }
    return fields;
}

PaperTable topic_table(const PaperVoice& voice, const CertificateFacts& facts) {
    const std::string machine_class = text_of(facts.evaluated.data, "class");
    const std::string evaluated = voice.date(evaluated_on(facts.evaluated));
    PaperTable table{{4, 2, 2, 2},
                     {voice.say("papers.topic"), voice.say("papers.instructed"),
                      voice.say("papers.practised"), voice.say("papers.evaluated")},
                     {}};
    for (const std::string& topic : list_of(facts.evaluated.data, "topics")) {
        const auto at = facts.topics.find(topic);
        const TopicTraining training = at == facts.topics.end() ? TopicTraining{} : at->second;
        table.rows.push_back({voice.topic_name(machine_class, topic),
                              voice.date(training.instructed_on), voice.date(training.practised_on),
                              evaluated});
    }
    return table;
}

Result<std::string> title_of(const PaperVoice& voice, const CertificateFacts& facts) {
    const bool whole = TRY(missing_items(voice, facts)).empty();
    return voice.say(whole ? "papers.certificate" : "papers.training-record");
}

Result<std::string> basis_of(const PaperVoice& voice, const CertificateFacts& facts) {
    std::vector<std::string> missing = TRY(missing_items(voice, facts));
    if (missing.empty()) return voice.say("papers.certificate-basis");
    for (std::string& item : missing) item = voice.say("papers.missing-" + item);
    return voice.say("papers.training-record-basis", {{"what", joined(missing, "; ")}});
}

Result<PaperPart> certificate_part(const PaperVoice& voice, const CertificateFacts& facts,
                                   const std::string& proof) {
    const std::string title = TRY(title_of(voice, facts));
    const MachineClass* known = voice.pack().machine_class(text_of(facts.evaluated.data, "class"));
    PaperPart part = voice.part(title);
    part.blocks = {PaperHeading{title, 1}};
    part.blocks.push_back(TRY(four_fields(voice, facts)));
    part.blocks.push_back(PaperHeading{voice.say("papers.topics"), 3});
    part.blocks.push_back(topic_table(voice, facts));
    for (auto& block : TRY(voice.signature(facts.evaluated))) {
        part.blocks.push_back(std::move(block));
    }
    part.blocks.push_back(PaperParagraph{
        voice.footing("osha-178-l", known != nullptr && known->is_truck) + ". " +
            TRY(basis_of(voice, facts)),
        true});
    if (proof.empty()) {
        part.blocks.push_back(PaperParagraph{voice.say("papers.no-proof"), true});
    } else {
        part.blocks.push_back(PaperQr{proof, 74, voice.say("papers.proof")});
    }
    return part;
}

}  // namespace

Result<bool> is_certificate(const BinderMaterial& material, const NameHashes& names,
                            const CertificateFacts& facts) {
    return TRY(missing_items(PaperVoice(material, names, "en"), facts)).empty();
}

Result<Paper> certificate_paper(const BinderMaterial& material, const NameHashes& names,
                                const CertificateFacts& facts, const std::string& proof) {
    const std::string signed_in = language_of(facts.evaluated);
    const auto languages =
        paper_languages(signed_in.empty() ? material.content.site.language : signed_in);
    const PaperVoice first(material, names, languages.front());
    Paper paper;
    paper.title = TRY(title_of(first, facts)) + " · " +
                  TRY(first.name(text_of(facts.evaluated.data, "person")));
    paper.author = first.site();
    paper.subject = first.class_name(text_of(facts.evaluated.data, "class"));
    paper.at_ms = facts.evaluated.at_ms;
    for (const std::string& language : languages) {
        const PaperVoice voice(material, names, language);
        paper.parts.push_back(TRY(certificate_part(voice, facts, proof)));
    }
    return paper;
}

}  // namespace holdpin
