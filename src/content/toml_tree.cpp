#include "content/toml_tree.hpp"

#include <fmt/format.h>

// Header-only and without exceptions: the shared library of the distribution holds only the
// throwing variant.
#define TOML_HEADER_ONLY 1
#define TOML_EXCEPTIONS 0
#include <toml++/toml.h>

#include <algorithm>
#include <utility>

namespace holdpin {
namespace {

int place(toml::source_index index) { return static_cast<int>(index); }

void place_at(Node& node, const toml::source_position& begin) {
    node.line = place(begin.line);
    node.column = place(begin.column);
}

class Converter {
  public:
    // Nothing where the tree is too deep; `deep_at()` then says where.
    std::optional<Node> convert(const toml::node& from, int depth) {
        Node node;
        place_at(node, from.source().begin);
        if (depth > kNodeDepthMax) {
            deep_at_ = node;
            return std::nullopt;
        }
        if (const auto* table = from.as_table()) return convert_table(*table, node, depth);
        if (const auto* array = from.as_array()) return convert_array(*array, node, depth);
        take_value(from, node);
        return node;
    }

    const Node& deep_at() const { return deep_at_; }

  private:
    std::optional<Node> convert_table(const toml::table& table, Node& node, int depth) {
        node.kind = Node::Kind::table;
        for (const auto& [key, below] : table) {
            auto item = convert(below, depth + 1);
            if (!item) return std::nullopt;
            const auto& at = key.source().begin;
            node.keys.push_back({std::string(key.str()), place(at.line), place(at.column)});
            node.items.push_back(std::move(*item));
        }
        return std::move(node);
    }

    std::optional<Node> convert_array(const toml::array& array, Node& node, int depth) {
        node.kind = Node::Kind::array;
        for (const auto& below : array) {
            auto item = convert(below, depth + 1);
            if (!item) return std::nullopt;
            node.items.push_back(std::move(*item));
        }
        return std::move(node);
    }

    static void take_value(const toml::node& from, Node& node) {
        node.kind = Node::Kind::other;
        if (const auto* text = from.as_string()) {
            node.kind = Node::Kind::text;
            node.text = text->get();
        } else if (const auto* integer = from.as_integer()) {
            node.kind = Node::Kind::integer;
            node.integer = integer->get();
        } else if (const auto* number = from.as_floating_point()) {
            node.kind = Node::Kind::number;
            node.number = number->get();
        } else if (const auto* truth = from.as_boolean()) {
            node.kind = Node::Kind::boolean;
            node.truth = truth->get();
        } else if (const auto* day = from.as_date()) {
            node.kind = Node::Kind::date;
            node.date = {day->get().year, day->get().month, day->get().day};
        }
    }

    Node deep_at_;
};

// Bounds that hold before the parser sees the text. A line bounds how deep a dotted key can go.
bool is_within_bounds(const std::string& file, std::string_view text, Faults& faults) {
    if (text.size() > kFileBytesMax) {
        faults.push_back({file, 0, 0, "the file is larger than 1 MiB", "split it"});
        return false;
    }
    int line = 1;
    while (!text.empty()) {
        const std::size_t length = std::min(text.find('\n'), text.size());
        if (length > kLineBytesMax) {
            faults.push_back({file, line, 1, "this line is longer than 4000 bytes", "split it"});
            return false;
        }
        text.remove_prefix(std::min(length + 1, text.size()));
        ++line;
    }
    return true;
}

// Passes over the text as TOML divides it, to find letters beyond ASCII outside quotation marks and
// comments. TOML has none there, and the parser does not outlive all of them.
class StrayLetters {
  public:
    explicit StrayLetters(std::string_view text) : text_(text) {}

    // The line of the first; 0: there is none.
    int first() {
        if (text_.starts_with("\xEF\xBB\xBF")) at_ = 3;
        while (at_ < text_.size()) {
            const char c = text_[at_];
            if (static_cast<unsigned char>(c) >= 0x80) return line();
            if (c == '#') {
                at_ = std::min(text_.find('\n', at_), text_.size());
            } else if ((c == '"' || c == '\'') && may_open_here()) {
                pass_quoted(c);
            } else {
                ++at_;
            }
        }
        return 0;
    }

  private:
    int line() const {
        const auto before = text_.substr(0, at_);
        return 1 + static_cast<int>(std::count(before.begin(), before.end(), '\n'));
    }
    // A mark within a word, as in -"text", opens nothing: the parser reads on as over a letter.
    bool may_open_here() const {
        constexpr std::string_view kBefore = " \t\r\n=,[{.\xBF";  // the last: of a byte order mark
        return at_ == 0 || kBefore.find(text_[at_ - 1]) != std::string_view::npos;
    }
    // To behind the closing mark. A text of one line that is not closed ends with its line, where
    // the parser stops, too.
    void pass_quoted(char mark) {
        const std::string three(3, mark);
        const bool many_lines = text_.substr(at_).starts_with(three);
        at_ += many_lines ? 3 : 1;
        while (at_ < text_.size()) {
            if (mark == '"' && text_[at_] == '\\') {
                at_ += 2;
            } else if (many_lines ? text_.substr(at_).starts_with(three) : text_[at_] == mark) {
                at_ += many_lines ? 3 : 1;
                return;
            } else if (!many_lines && text_[at_] == '\n') {
                return;
            } else {
                ++at_;
            }
        }
    }

    std::string_view text_;
    std::size_t at_ = 0;
};

}  // namespace

std::optional<Node> parse_toml(const std::string& file, std::string_view text, Faults& faults) {
    if (!is_within_bounds(file, text, faults)) return std::nullopt;
    if (const int line = StrayLetters(text).first(); line != 0) {
        faults.push_back({file, line, 1, "this is no TOML: a letter stands outside quotation marks",
                          "put quotation marks around it"});
        return std::nullopt;
    }
    const toml::parse_result result = toml::parse(text, std::string_view(file));
    if (!result) {
        const auto& at = result.error().source().begin;
        faults.push_back({file, place(at.line), place(at.column),
                          fmt::format("this is no TOML: {}", result.error().description()),
                          "mend it; nothing after this place was read"});
        return std::nullopt;
    }
    Converter converter;
    auto root = converter.convert(result.table(), 0);
    if (!root) {
        const Node& at = converter.deep_at();
        faults.push_back({file, at.line, at.column, "tables are nested too deep here",
                          "no content needs that many levels"});
        return std::nullopt;
    }
    root->line = 1;
    root->column = 1;
    return root;
}

}  // namespace holdpin
