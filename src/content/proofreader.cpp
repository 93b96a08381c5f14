#include "content/proofreader.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "content/node_reader.hpp"
#include "content/text_rules.hpp"

namespace holdpin {
namespace {

bool has_element(const std::string& svg, const std::string& id) {
    return svg.find(fmt::format("id=\"{}\"", id)) != std::string::npos ||
           svg.find(fmt::format("id='{}'", id)) != std::string::npos;
}

}  // namespace

std::vector<Spot> places_of(const Spot& at, std::string_view key, std::size_t count) {
    std::vector<Spot> places;
    for (std::size_t i = 0; i < count; ++i) places.push_back(at.item(key, i));
    return places;
}

std::string illustration_file(const std::string& name) {
    return fmt::format("illustrations/{}.svg", name);
}

std::string drawing_file(const Files& assets, const std::string& name) {
    for (const auto& file :
         {fmt::format("illustrations/tiles/{}.svg", name), illustration_file(name)}) {
        if (assets.contains(file)) return file;
    }
    return "";
}

void Proof::note(const Spot& at, std::string what, std::string mend) {
    note_fault(faults_, at, std::move(what), std::move(mend));
}

bool Proof::known(const std::string& id, const std::vector<std::string>& known, const Spot& at,
                  std::string_view kind) {
    if (id.empty()) return false;
    if (std::find(known.begin(), known.end(), id) != known.end()) return true;
    const std::string near = meant_by(id, known);
    note(at, fmt::format("there is no {} \"{}\"", kind, id),
         near.empty() ? fmt::format("write the {} or name another", kind)
                      : fmt::format("did you mean \"{}\"?", near));
    return false;
}

void Proof::unique(const std::vector<std::string>& ids, const std::vector<Spot>& places,
                   std::string_view kind) {
    for (std::size_t i = 0; i < ids.size(); ++i) {
        const auto first = std::find(ids.begin(), ids.end(), ids[i]);
        const auto at = static_cast<std::size_t>(first - ids.begin());
        if (ids[i].empty() || at == i) continue;
        note(places[i], fmt::format("{} \"{}\" is there twice", kind, ids[i]),
             fmt::format("the first is at {}:{}", places[at].file(), places[at].node().line));
    }
}

void Proof::footing(const std::string& id, const Spot& at) {
    known(id, ids_of(pack().footings, &Footing::id), at.key("footing"), "footing");
}

void Proof::part(const std::string& part, const Picture& picture, const std::string& svg,
                 const Spot& at) {
    if (!has_element(svg, part)) {
        note(at, fmt::format("illustration \"{}\" has no part \"{}\"", picture.file, part),
             fmt::format("give an element of the drawing id=\"{}\" or name another part", part));
    }
    const auto names_it = [&](const MachineClass& machine) {
        const auto ids = ids_of(machine.parts, &Part::id);
        return std::find(ids.begin(), ids.end(), part) != ids.end();
    };
    if (std::none_of(pack().classes.begin(), pack().classes.end(), names_it)) {
        note(at, fmt::format("part \"{}\" has no name", part),
             fmt::format("add [[part]] id = \"{}\" with its name to a class", part));
    }
}

void Proof::picture(const Picture& picture, const Spot& at) {
    if (picture.empty()) return;
    const Spot spot = at.key("picture");
    const std::string file = illustration_file(picture.file);
    const auto svg = assets_.find(file);
    if (svg == assets_.end()) {
        note(spot.key("file"), fmt::format("there is no illustration \"{}\"", picture.file),
             fmt::format("draw assets/{}", file));
        return;
    }
    for (const auto& id : picture.parts) part(id, picture, svg->second, spot.key("parts"));
}

void Proof::drawing(const std::string& name, const Spot& at) {
    if (name.empty() || !drawing_file(assets_, name).empty()) return;
    note(at.key("drawing"), fmt::format("there is no drawing \"{}\"", name),
         fmt::format("draw assets/illustrations/tiles/{}.svg", name));
}

void Proof::warnings(const std::vector<Warning>& warnings, const Spot& at) {
    for (std::size_t i = 0; i < warnings.size(); ++i) {
        const Warning& warning = warnings[i];
        const Spot spot = at.item("warning", i);
        footing(warning.footing, spot);
        // H-05: the word DANGER is kept for what will happen, so the consequence has to say so.
        const bool is_danger =
            signal_word(warning.severity, warning.probability) == SignalWord::danger;
        const std::string& english = warning.consequence.in("en");
        if (is_danger && !english.empty() && !has_word(english, "will")) {
            note(spot.key("consequence"), "a DANGER does not say what will happen",
                 "say it with \"will\", or write probability = \"could\"");
        }
    }
}

void Proof::screen_words(const Spot& at) {
    const Node& node = at.node();
    for (std::size_t i = 0; i < node.items.size(); ++i) {
        const Spot below = at.item(i);
        const bool is_english = i < node.keys.size() && node.keys[i].name == "en";
        if (!is_english || below.node().kind != Node::Kind::text) {
            screen_words(below);
        } else if (const auto word = banned_word_in(below.node().text); !word.empty()) {
            note(below, fmt::format("\"{}\" never stands on a screen", word),
                 "say plainly what the kiosk does");
        }
    }
}

void Proof::placeholders(const Text& text, const Spot& at, std::string_view name) {
    const std::set<std::string>* first = nullptr;
    std::vector<std::set<std::string>> sets;
    sets.reserve(text.by_language.size());
    for (const auto& [language, words] : text.by_language) {
        auto names = placeholders_in(words);
        if (!names.ok()) {
            note(at.key(language), fmt::format("\"{}\": {}", name, names.error().what),
                 "write a placeholder as {machine}");
            continue;
        }
        sets.push_back(std::move(names).value());
        if (first && *first != sets.back()) {
            note(at.key(language),
                 fmt::format("\"{}\" has other placeholders in {} than before: {} and {}", name,
                             language, fmt::join(sets.back(), " "), fmt::join(*first, " ")),
                 "use the same ones in each language");
        }
        if (!first) first = &sets.front();
    }
}

void proofread(const ContentDraft& draft, const Files& assets, bool has_site, Faults& faults) {
    Proof proof(draft, assets, faults);
    proof_rulesets(proof);
    proof_classes(proof);
    proof_guides(proof);
    proof_quizzes(proof);
    proof_rounds(proof);
    proof_sheets(proof);
    proof_works(proof);
    if (has_site) proof_site(proof);
}

}  // namespace holdpin
