#include "content/node_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "base/text.hpp"

namespace holdpin {
namespace {

constexpr std::size_t kTextBytesMax = 2000;
constexpr std::size_t kIdLengthMax = 64;

bool is_folder_path(std::string_view text) {
    if (text.size() < 2 || text.front() != '/') return false;
    const auto parts = split(text.substr(1), '/');
    return std::none_of(parts.begin(), parts.end(), [](const std::string& part) {
        return part.empty() || part == "." || part == "..";
    });
}

std::string_view kind_name(Node::Kind kind) {
    switch (kind) {
        case Node::Kind::table:
            return "a table";
        case Node::Kind::array:
            return "a list";
        case Node::Kind::text:
            return "text";
        case Node::Kind::integer:
            return "a whole number";
        case Node::Kind::number:
            return "a number with a point";
        case Node::Kind::boolean:
            return "true or false";
        case Node::Kind::date:
            return "a date";
        case Node::Kind::other:
            break;
    }
    return "a time";
}

// How a value of a kind is written, for the mend of a fault.
std::string example_of(std::string_view key, Node::Kind kind) {
    switch (kind) {
        case Node::Kind::table:
            return fmt::format("{} = {{ … }}", key);
        case Node::Kind::array:
            return fmt::format("{} = [\"…\"]", key);
        case Node::Kind::text:
            return fmt::format("{} = \"…\"", key);
        case Node::Kind::integer:
            return fmt::format("{} = 6", key);
        case Node::Kind::number:
            return fmt::format("{} = 6.0", key);
        case Node::Kind::boolean:
            return fmt::format("{} = true", key);
        case Node::Kind::date:
            return fmt::format("{} = 2027-03-01", key);
        case Node::Kind::other:
            break;
    }
    return std::string(key);
}

// ImGui shapes nothing: a letter and a combining mark (U+0300..U+036F) would show apart.
bool has_combining_mark(std::string_view utf8) {
    for (std::size_t i = 0; i + 1 < utf8.size(); ++i) {
        const auto lead = static_cast<unsigned char>(utf8[i]);
        const auto next = static_cast<unsigned char>(utf8[i + 1]);
        if (lead == 0xCC || (lead == 0xCD && next <= 0xAF)) return true;
    }
    return false;
}

// What is wrong with a text as such, or nothing.
std::string_view flaw_of(std::string_view text) {
    if (trimmed(text).empty()) return "is empty";
    if (trimmed(text).size() != text.size()) return "begins or ends with a blank";
    if (text.size() > kTextBytesMax) return "is longer than 2000 bytes";
    if (has_combining_mark(text)) return "has a letter with a loose accent (not NFC)";
    const bool has_control = std::any_of(text.begin(), text.end(), [](char c) {
        return static_cast<unsigned char>(c) < 0x20 && c != '\n';
    });
    return has_control ? "has a control character" : "";
}

std::string mend_of_flaw(std::string_view flaw) {
    if (flaw.find("NFC") != std::string_view::npos) return "write the accented letter as one";
    if (flaw == "is empty") return "write it or take the key out";
    return "mend it";
}

}  // namespace

bool is_pack_language(std::string_view tag) {
    return std::any_of(std::begin(kPackLanguages), std::end(kPackLanguages),
                       [&](const PackLanguage& language) { return language.tag == tag; });
}

bool is_id(std::string_view text) {
    if (text.empty() || text.size() > kIdLengthMax || text.front() == '-' || text.back() == '-') {
        return false;
    }
    const bool letters_ok = std::all_of(text.begin(), text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    });
    return letters_ok && text.find("--") == std::string_view::npos;
}

std::string meant_by(std::string_view word, const std::vector<std::string>& known) {
    constexpr std::size_t kLeast = 3;
    return word.size() < kLeast ? "" : nearest(word, known);
}

void note_fault(Faults& faults, const Spot& at, std::string what, std::string mend) {
    faults.push_back(
        {at.file(), at.node().line, at.node().column, std::move(what), std::move(mend)});
}

Text read_text(const Spot& at, std::string_view name, Faults& faults) {
    Text text;
    for (const auto& language : kPackLanguages) {
        const Node* node = at.node().find(language.tag);
        const Spot spot = at.key(language.tag);
        if (!node) {
            note_fault(faults, at, fmt::format("\"{}\" has no {}", name, language.name),
                       fmt::format("add {} = \"…\"", language.tag));
        } else if (node->kind != Node::Kind::text) {
            note_fault(faults, spot, fmt::format("\"{}\" is {}", name, kind_name(node->kind)),
                       "write a text in quotes");
        } else if (const auto flaw = flaw_of(node->text); !flaw.empty()) {
            note_fault(faults, spot, fmt::format("\"{}\" in {} {}", name, language.name, flaw),
                       mend_of_flaw(flaw));
        } else {
            text.by_language.emplace(language.tag, node->text);
        }
    }
    for (std::size_t i = 0; i < at.node().keys.size(); ++i) {
        const auto& key = at.node().keys[i].name;
        if (!is_pack_language(key)) {
            note_fault(faults, at.item(i), fmt::format("\"{}\" has \"{}\"", name, key),
                       "the languages of the pack are en and es");
        }
    }
    return text;
}

NodeReader::NodeReader(Spot at, Faults& faults) : at_(at), faults_(&faults) {
    if (at_.node().kind != Node::Kind::table) {
        note(at_.node(), fmt::format("this is {}", kind_name(at_.node().kind)), "write a table");
    }
}

void NodeReader::note(const Node& node, std::string what, std::string mend) {
    note_fault(*faults_, Spot(at_.file(), node), std::move(what), std::move(mend));
}

const Node* NodeReader::find(std::string_view key, Node::Kind kind, Need need) {
    asked_.emplace_back(key);
    const Node* node = at_.node().find(key);
    if (!node) {
        if (need == Need::must && at_.node().kind == Node::Kind::table) {
            note(at_.node(), fmt::format("\"{}\" is missing", key),
                 fmt::format("write {}", example_of(key, kind)));
        }
        return nullptr;
    }
    return is_kind(*node, kind, key) ? node : nullptr;
}

bool NodeReader::is_kind(const Node& node, Node::Kind kind, std::string_view key) {
    if (node.kind == kind) return true;
    note(node, fmt::format("\"{}\" is {}", key, kind_name(node.kind)),
         fmt::format("write {}, for example {}", kind_name(kind), example_of(key, kind)));
    return false;
}

bool NodeReader::is_clean(const Node& node, std::string_view key) {
    const auto flaw = flaw_of(node.text);
    if (flaw.empty()) return true;
    note(node, fmt::format("\"{}\" {}", key, flaw), mend_of_flaw(flaw));
    return false;
}

void NodeReader::note_name(const Node& node, std::string_view key,
                           const std::vector<std::string>& known) {
    const std::string near = meant_by(node.text, known);
    note(node, fmt::format("\"{}\" cannot be \"{}\"", key, node.text),
         near.empty() ? fmt::format("write one of {}", joined(known, ", "))
                      : fmt::format("did you mean \"{}\"?", near));
}

void NodeReader::note_range(const Node& node, std::string_view key, const std::string& bounds) {
    note(node, fmt::format("\"{}\" is out of range", key), fmt::format("write {}", bounds));
}

std::string NodeReader::id(std::string_view key, Need need) {
    const Node* node = find(key, Node::Kind::text, need);
    if (!node) return "";
    if (is_id(node->text)) return node->text;
    note(*node, fmt::format("\"{}\" is no id: \"{}\"", key, node->text),
         "write lower-case words joined by hyphens");
    return "";
}

std::string NodeReader::words(std::string_view key, Need need) {
    const Node* node = find(key, Node::Kind::text, need);
    return node && is_clean(*node, key) ? node->text : "";
}

std::vector<std::string> NodeReader::ids(std::string_view key, Need need) {
    std::vector<std::string> values;
    const Node* list = find(key, Node::Kind::array, need);
    if (!list) return values;
    for (const Node& node : list->items) {
        if (!is_kind(node, Node::Kind::text, key)) continue;
        if (!is_id(node.text)) {
            note(node, fmt::format("\"{}\" holds no id: \"{}\"", key, node.text),
                 "write lower-case words joined by hyphens");
        } else if (std::find(values.begin(), values.end(), node.text) != values.end()) {
            note(node, fmt::format("\"{}\" names \"{}\" twice", key, node.text), "take one out");
        } else {
            values.push_back(node.text);
        }
    }
    return values;
}

std::vector<std::string> NodeReader::paths(std::string_view key) {
    std::vector<std::string> values;
    const Node* list = find(key, Node::Kind::array, Need::must);
    if (!list) return values;
    for (const Node& node : list->items) {
        if (!is_kind(node, Node::Kind::text, key) || !is_clean(node, key)) continue;
        if (!is_folder_path(node.text)) {
            note(node, fmt::format("\"{}\" holds no folder: \"{}\"", key, node.text),
                 "write it from the root, without \"..\" and a slash at its end: \"/srv/binders\"");
        } else if (std::find(values.begin(), values.end(), node.text) != values.end()) {
            note(node, fmt::format("\"{}\" names \"{}\" twice", key, node.text), "take one out");
        } else {
            values.push_back(node.text);
        }
    }
    return values;
}

Text NodeReader::text(std::string_view key, Need need) {
    asked_.emplace_back(key);
    const Node* node = at_.node().find(key);
    const std::string_view mend = "{ en = \"…\", es = \"…\" }";
    if (!node) {
        if (need == Need::must && at_.node().kind == Node::Kind::table) {
            note(at_.node(), fmt::format("\"{}\" is missing", key),
                 fmt::format("write {} = {}", key, mend));
        }
        return {};
    }
    if (node->kind != Node::Kind::table) {
        note(*node, fmt::format("\"{}\" is {}", key, kind_name(node->kind)),
             fmt::format("write {} = {}", key, mend));
        return {};
    }
    return read_text(Spot(at_.file(), *node), key, *faults_);
}

bool NodeReader::flag(std::string_view key, std::optional<bool> fallback) {
    const Node* node = find(key, Node::Kind::boolean, fallback ? Need::may : Need::must);
    return node ? node->truth : fallback.value_or(false);
}

int NodeReader::whole(std::string_view key, Range range, std::optional<int> fallback) {
    const Node* node = find(key, Node::Kind::integer, fallback ? Need::may : Need::must);
    if (!node) return fallback.value_or(range.min);
    if (node->integer < range.min || node->integer > range.max) {
        note_range(*node, key, fmt::format("a whole number from {} to {}", range.min, range.max));
        return fallback.value_or(range.min);
    }
    return static_cast<int>(node->integer);
}

double NodeReader::number(std::string_view key, double min, double max,
                          std::optional<double> fallback) {
    const Node* whole = at_.node().find(key);
    const bool is_whole = whole && whole->kind == Node::Kind::integer;
    const Node* node = find(key, is_whole ? Node::Kind::integer : Node::Kind::number,
                            fallback ? Need::may : Need::must);
    if (!node) return fallback.value_or(min);
    const double value = is_whole ? static_cast<double>(node->integer) : node->number;
    // Written so that "not a number" fails too.
    if (value >= min && value <= max) return value;
    note_range(*node, key, fmt::format("a number from {} to {}", min, max));
    return fallback.value_or(min);
}

std::int64_t NodeReader::tenths(std::string_view key, std::optional<std::int64_t> fallback) {
    const Node* node = find(key, Node::Kind::text, fallback ? Need::may : Need::must);
    if (!node) return fallback.value_or(0);
    const auto value = parse_tenths(node->text);
    if (value.ok()) return value.value();
    note(*node, fmt::format("\"{}\" is no number: \"{}\"", key, node->text), value.error().mend);
    return fallback.value_or(0);
}

std::optional<Date> NodeReader::date(std::string_view key, Need need) {
    const Node* node = find(key, Node::Kind::date, need);
    if (!node) return std::nullopt;
    if (is_real_date(node->date) && node->date.year >= 1970 && node->date.year <= 2200) {
        return node->date;
    }
    note_range(*node, key, "a date from 1970 to 2200");
    return std::nullopt;
}

int NodeReader::minute_of_day(std::string_view key) {
    const Node* node = find(key, Node::Kind::text, Need::must);
    if (!node) return 0;
    const auto minute = parse_minute(node->text);
    if (minute.ok()) return minute.value();
    note(*node, fmt::format("\"{}\" is no time of day: \"{}\"", key, node->text),
         minute.error().mend);
    return 0;
}

std::vector<NodeReader> NodeReader::tables(std::string_view key, Need need) {
    std::vector<NodeReader> readers;
    asked_.emplace_back(key);
    const Node* list = at_.node().find(key);
    const std::string mend = fmt::format("write [[…{}]] and its keys below", key);
    if (!list || (list->kind == Node::Kind::array && list->items.empty())) {
        if (need == Need::must) note(at_.node(), fmt::format("there is no \"{}\"", key), mend);
        return readers;
    }
    if (list->kind != Node::Kind::array) {
        note(*list, fmt::format("\"{}\" is {}", key, kind_name(list->kind)), mend);
        return readers;
    }
    for (const Node& node : list->items) readers.emplace_back(Spot(at_.file(), node), *faults_);
    return readers;
}

std::optional<NodeReader> NodeReader::table(std::string_view key, Need need) {
    const Node* node = find(key, Node::Kind::table, need);
    if (!node) return std::nullopt;
    return NodeReader(Spot(at_.file(), *node), *faults_);
}

void NodeReader::done() {
    const Node& node = at_.node();
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        const auto& key = node.keys[i];
        if (std::find(asked_.begin(), asked_.end(), key.name) != asked_.end()) continue;
        const std::string near = meant_by(key.name, asked_);
        faults_->push_back({at_.file(), key.line, key.column,
                            fmt::format("key \"{}\" is not known here", key.name),
                            near.empty()
                                ? fmt::format("take it out; known are {}", joined(asked_, ", "))
                                : fmt::format("did you mean \"{}\"?", near)});
    }
}

}  // namespace holdpin
