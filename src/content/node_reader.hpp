// Takes typed values out of one table and notes every fault on the way.
// Guarantees: a getter always returns a value of its type, empty or the fallback after a fault, so
// that one pass finds all faults; done() notes each key that no getter asked for.
// Does not know what the values mean: the proofreader does.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "content/fault.hpp"
#include "content/node.hpp"
#include "content_types/content.hpp"

namespace holdpin {

// The languages of the pack: every text has each of them.
struct PackLanguage {
    std::string_view tag;
    std::string_view name;
};
inline constexpr PackLanguage kPackLanguages[] = {{"en", "English"}, {"es", "Spanish"}};

bool is_pack_language(std::string_view tag);
// Lower-case words and digits joined by single hyphens, at most 64 characters.
bool is_id(std::string_view text);

// The known word that a misspelt one is meant to be, or empty. Words of one or two letters are near
// to everything and get none.
std::string meant_by(std::string_view word, const std::vector<std::string>& known);

void note_fault(Faults& faults, const Spot& at, std::string what, std::string mend);
// A text in each language of the pack, out of an inline table.
Text read_text(const Spot& at, std::string_view name, Faults& faults);

enum class Need { must, may };

struct Range {
    int min = 0;
    int max = 0;
};

class NodeReader {
  public:
    NodeReader(Spot at, Faults& faults);

    const Spot& at() const { return at_; }
    Faults& faults() const { return *faults_; }
    bool has(std::string_view key) const { return at_.node().find(key) != nullptr; }

    std::string id(std::string_view key, Need need = Need::must);
    std::string words(std::string_view key, Need need = Need::must);  // in no language
    std::vector<std::string> ids(std::string_view key, Need need = Need::must);
    // Folders of the computer, each from its root, without "." and ".." and never the root itself.
    std::vector<std::string> paths(std::string_view key);
    Text text(std::string_view key, Need need = Need::must);
    bool flag(std::string_view key, std::optional<bool> fallback = std::nullopt);
    int whole(std::string_view key, Range range, std::optional<int> fallback = std::nullopt);
    double number(std::string_view key, double min, double max,
                  std::optional<double> fallback = std::nullopt);
    std::int64_t tenths(std::string_view key, std::optional<std::int64_t> fallback = std::nullopt);
    std::optional<Date> date(std::string_view key, Need need);
    int minute_of_day(std::string_view key);

    // Tables under a key: an array of tables, or one inline table.
    std::vector<NodeReader> tables(std::string_view key, Need need);
    std::optional<NodeReader> table(std::string_view key, Need need);

    template <typename Enum>
    using Names = std::vector<std::pair<std::string, Enum>>;

    template <typename Enum>
    Enum choice(std::string_view key, const Names<Enum>& names,
                std::type_identity_t<std::optional<Enum>> fallback = std::nullopt) {
        const Node* node = find(key, Node::Kind::text, fallback ? Need::may : Need::must);
        return node ? named(*node, key, names) : fallback.value_or(names.front().second);
    }
    template <typename Enum>
    std::vector<Enum> choices(std::string_view key, const Names<Enum>& names, Need need) {
        std::vector<Enum> values;
        const Node* list = find(key, Node::Kind::array, need);
        if (!list) return values;
        for (const Node& node : list->items) {
            if (is_kind(node, Node::Kind::text, key)) values.push_back(named(node, key, names));
        }
        return values;
    }

    void done();

  private:
    const Node* find(std::string_view key, Node::Kind kind, Need need);
    bool is_kind(const Node& node, Node::Kind kind, std::string_view key);
    bool is_clean(const Node& node, std::string_view key);
    void note(const Node& node, std::string what, std::string mend);
    void note_name(const Node& node, std::string_view key, const std::vector<std::string>& known);
    void note_range(const Node& node, std::string_view key, const std::string& bounds);

    template <typename Enum>
    Enum named(const Node& node, std::string_view key, const Names<Enum>& names) {
        std::vector<std::string> known;
        for (const auto& [name, value] : names) {
            if (name == node.text) return value;
            known.push_back(name);
        }
        note_name(node, key, known);
        return names.front().second;
    }

    Spot at_;
    Faults* faults_;
    std::vector<std::string> asked_;
};

// Names of an enumeration whose values run from the first to `last`, as name_of writes them.
template <typename Enum>
NodeReader::Names<Enum> names_up_to(Enum last) {
    NodeReader::Names<Enum> names;
    for (int i = 0; i <= static_cast<int>(last); ++i) {
        const Enum value = static_cast<Enum>(i);
        names.emplace_back(std::string(name_of(value)), value);
    }
    return names;
}

}  // namespace holdpin
