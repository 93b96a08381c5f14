// Our own small tree of what stands in a file, each value with its place. It is all that the
// readers know; which library parsed the file stays in toml_tree.cpp.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/local_time.hpp"

namespace holdpin {

struct Node {
    enum class Kind { table, array, text, integer, number, boolean, date, other };
    struct Key {
        std::string name;
        int line = 0;
        int column = 0;
    };

    Kind kind = Kind::table;
    int line = 1;
    int column = 1;
    std::string text;
    std::int64_t integer = 0;
    double number = 0;
    bool truth = false;
    Date date;
    std::vector<Key> keys;    // of a table; keys[i] names items[i]
    std::vector<Node> items;  // of a table or an array

    const Node* find(std::string_view key) const {
        for (std::size_t i = 0; i < keys.size(); ++i) {
            if (keys[i].name == key) return &items[i];
        }
        return nullptr;
    }
};

// A node and the file it stands in: where a fault points. Cheap to copy; the tree must outlive it.
class Spot {
  public:
    Spot(const std::string& file, const Node& node) : file_(&file), node_(&node) {}

    const std::string& file() const { return *file_; }
    const Node& node() const { return *node_; }
    // The value of a key, or this spot where there is none: faults then point at what holds it.
    Spot key(std::string_view name) const {
        const Node* below = node_->find(name);
        return below ? Spot(*file_, *below) : *this;
    }
    Spot item(std::size_t index) const {
        return index < node_->items.size() ? Spot(*file_, node_->items[index]) : *this;
    }
    Spot item(std::string_view name, std::size_t index) const {
        const Node* below = node_->find(name);
        return below ? Spot(*file_, *below).item(index) : *this;
    }

  private:
    const std::string* file_;
    const Node* node_;
};

}  // namespace holdpin
