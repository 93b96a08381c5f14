// Frozen bytes back into typed items. Frozen items have the keys of their files, so the readers of
// files read them: JSON becomes the same nodes as TOML, and there is one reader for both.
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "content/content.hpp"
#include "content/draft.hpp"
#include "content/toml_tree.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

std::optional<Node> node_of(const Json& json, int depth) {
    Node node;
    if (depth > kNodeDepthMax) return std::nullopt;
    if (json.is_object() || json.is_array()) {
        node.kind = json.is_object() ? Node::Kind::table : Node::Kind::array;
        for (const auto& [key, below] : json.items()) {
            auto item = node_of(below, depth + 1);
            if (!item) return std::nullopt;
            if (json.is_object()) node.keys.push_back({key, 1, 1});
            node.items.push_back(std::move(*item));
        }
    } else if (json.is_string()) {
        node.kind = Node::Kind::text;
        node.text = json.get<std::string>();
    } else if (json.is_number_integer()) {
        node.kind = Node::Kind::integer;
        node.integer = json.get<std::int64_t>();
    } else if (json.is_boolean()) {
        node.kind = Node::Kind::boolean;
        node.truth = json.get<bool>();
    } else {
        return std::nullopt;
    }
    return node;
}

Error damaged(std::string_view kind, std::string what) {
    return {ErrorKind::damaged, fmt::format("this is no frozen {}: {}", kind, what), "",
            "fetch it from a copy"};
}

template <typename Item>
Result<Item> thawed(std::string_view frozen, std::string_view kind,
                    Item (*read)(const Spot&, Faults&)) {
    Json json = Json::parse(frozen, nullptr, false);
    if (!json.is_object()) return damaged(kind, "no JSON object");
    // Digests of drawings are for checking, not for showing.
    json.erase("drawings");
    const auto root = node_of(json, 0);
    if (!root) return damaged(kind, "a value of no known kind");
    const std::string file = "frozen";
    Faults faults;
    Item item = read(Spot(file, *root), faults);
    if (!faults.empty()) return damaged(kind, faults.front().what);
    return item;
}

}  // namespace

Result<Round> thawed_round(std::string_view frozen) { return thawed(frozen, "round", read_round); }
Result<Guide> thawed_guide(std::string_view frozen) { return thawed(frozen, "guide", read_guide); }
Result<Quiz> thawed_quiz(std::string_view frozen) { return thawed(frozen, "quiz", read_quiz); }
Result<Sheet> thawed_sheet(std::string_view frozen) { return thawed(frozen, "sheet", read_sheet); }

}  // namespace holdpin
