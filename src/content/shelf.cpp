#include "content/shelf.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <utility>

#include "base/text.hpp"
#include "content/node_reader.hpp"
#include "content/toml_tree.hpp"

namespace holdpin {
namespace {

using RulesetReader = void (*)(const Spot&, ContentDraft&, Faults&);
constexpr std::array<std::pair<std::string_view, RulesetReader>, 3> kRulesets{{
    {"rulesets/footings.toml", read_footings},
    {"rulesets/holds.toml", read_holds},
    {"rulesets/duties.toml", read_duties},
}};

// Older packs do without.
constexpr std::pair<std::string_view, RulesetReader> kRetention{"rulesets/retention.toml",
                                                                read_retention};

const std::vector<std::string>& item_folders() {
    static const std::vector<std::string> kFolders{"classes", "guides",  "quizzes", "rounds",
                                                   "sheets",  "strings", "rulesets",
                                                   "works"};
    return kFolders;
}

}  // namespace

const Spot* Shelf::parse(const std::string& name, const std::string& bytes) {
    auto root = parse_toml(name, bytes, faults_);
    if (!root) return nullptr;
    const auto [at, is_new] = parsed_.try_emplace(name);
    at->second.root = std::move(*root);
    at->second.spot.emplace_back(at->first, at->second.root);
    return &at->second.spot.back();
}

void Shelf::check_name(const std::string& id, const Spot& file) {
    const std::string& name = file.file();
    const auto slash = name.rfind('/') + 1;  // 0 where there is none
    const std::string stem = name.substr(slash, name.rfind('.') - slash);
    if (id.empty() || id == stem) return;
    note_fault(faults_, file.key("id"), fmt::format("the file of \"{}\" has another name", id),
               fmt::format("name it {}.toml or write id = \"{}\"", id, stem));
}

void Shelf::add_item(const std::string& folder, const Spot& file) {
    Pack& pack = draft_.content.pack;
    Places& places = draft_.places;
    const auto add = [&](auto& items, std::vector<Spot>& at, auto item) {
        check_name(item.id, file);
        items.push_back(std::move(item));
        at.push_back(file);
    };
    if (folder == "classes") add(pack.classes, places.classes, read_class(file, faults_));
    if (folder == "guides") add(pack.guides, places.guides, read_guide(file, faults_));
    if (folder == "quizzes") add(pack.quizzes, places.quizzes, read_quiz(file, faults_));
    if (folder == "rounds") add(pack.rounds, places.rounds, read_round(file, faults_));
    if (folder == "sheets") add(pack.sheets, places.sheets, read_sheet(file, faults_));
    if (folder == "works") add(pack.works, places.works, read_work(file, faults_));
    if (folder == "strings") read_strings(file, draft_, faults_);
}

void Shelf::add_pack_file(const std::string& name, const std::string& bytes) {
    const auto parts = split(name, '/');
    const std::string& folder = parts.front();
    const std::string near = nearest(folder, item_folders());
    const bool is_known = near == folder && parts.size() == 2;
    if (!is_known) {
        faults_.push_back({name, 0, 0, "no content is read from this folder",
                           near.empty() || near == folder
                               ? fmt::format("use {}", joined(item_folders(), ", "))
                               : fmt::format("did you mean {}/?", near)});
        return;
    }
    if (folder != "rulesets") {
        if (const Spot* file = parse(name, bytes)) add_item(folder, *file);
        return;
    }
    auto rulesets = std::vector(kRulesets.begin(), kRulesets.end());
    rulesets.push_back(kRetention);
    for (const auto& [known, read] : rulesets) {
        if (name != known) continue;
        if (const Spot* file = parse(name, bytes)) read(*file, draft_, faults_);
        return;
    }
    faults_.push_back({name, 0, 0, "this ruleset is not known",
                       "rulesets are footings.toml, holds.toml, duties.toml and retention.toml"});
}

void Shelf::add_pack(const Files& files) {
    for (const auto& [name, bytes] : files) {
        if (name.ends_with(".toml") && !name.starts_with("sites/")) add_pack_file(name, bytes);
    }
    for (const auto& [known, read] : kRulesets) {
        if (!files.contains(std::string(known))) {
            faults_.push_back({std::string(known), 0, 0, "the file is missing", "write it"});
        }
    }
}

void Shelf::add_site(const Files& files, const std::string& head) {
    if (!files.contains(head)) {
        faults_.push_back({head, 0, 0, "the file is missing", "a site begins with a site.toml"});
    }
    for (const auto& [name, bytes] : files) {
        if (!name.ends_with(".toml")) continue;
        if (const Spot* file = parse(name, bytes)) {
            read_site_file(*file, name == head, draft_, faults_);
        }
    }
}

}  // namespace holdpin
