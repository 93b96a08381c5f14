#include "binder/papers_tag.hpp"

#include "rules/tags.hpp"

namespace holdpin {
namespace {

constexpr double kCodeCapitals = 24;  // mm; at least 20
constexpr double kWordsCapitals = 16;

const std::string& say(const Pack& pack, const std::string& key, const std::string& language) {
    static const std::string kNone;
    const auto at = pack.strings.find(key);
    return at == pack.strings.end() ? kNone : at->second.in(language);
}

PaperFields tag_fields(const TagPaper& tag, const Pack& pack, const std::string& language) {
    const auto label = [&](const std::string& key) {
        const std::string& own = say(pack, key, language);
        const std::string& english = say(pack, key, "en");
        return own == english ? english : own + " · " + english;
    };
    PaperFields fields;
    fields.rows = {{label("papers.tag-machine"), tag.machine},
                   {label("papers.tag-reason"),
                    language == "en" || tag.reason == tag.reason_english
                        ? tag.reason
                        : tag.reason + "\n" + tag.reason_english},
                   {label("papers.tag-date"), tag.date}};
    if (!tag.by.empty()) fields.rows.push_back({label("papers.tag-by"), tag.by});
    return fields;
}

}  // namespace

Result<std::string> tag_pdf(const TagPaper& tag, const Content& content) {
    const std::string& language = content.site.language;
    const Pack& pack = content.pack;
    PaperPart part;
    part.language = language;
    part.footer = content.site.name.in(language) + " · " + tag.machine + " · " + tag.code;
    part.blocks = {PaperHole{},
                   PaperLarge{say(pack, "signal.danger", language), kWordsCapitals, true},
                   PaperLarge{say(pack, "papers.tag-word", language), kWordsCapitals, true}};
    if (language != "en") {
        part.blocks.push_back(
            PaperLarge{say(pack, "papers.tag-word", "en"), kWordsCapitals * 0.6, true});
    }
    part.blocks.push_back(PaperLarge{tag.machine, 14, false, true});
    part.blocks.push_back(PaperLarge{tag.code, kCodeCapitals, false, true});
    part.blocks.push_back(tag_fields(tag, pack, language));
    std::string caption = say(pack, "papers.tag-stays", language);
    if (language != "en") caption += "\n\n" + say(pack, "papers.tag-stays", "en");
    part.blocks.push_back(PaperGap{2});
    part.blocks.push_back(
        PaperQr{tag_line(tag.machine, tag.code, tag.entry), 45, std::move(caption)});
    Paper paper;
    paper.title = say(pack, "papers.tag-word", language) + " · " + tag.machine;
    paper.author = content.site.name.in(language);
    paper.at_ms = tag.at_ms;
    paper.parts.push_back(std::move(part));
    return paper_pdf(paper);
}

}  // namespace holdpin
