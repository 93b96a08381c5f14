#include "base_json/values.hpp"

#include <nlohmann/json.hpp>

namespace holdpin {

std::string text_of(const nlohmann::json& data, const char* key) {
    const auto at = data.find(key);
    return at != data.end() && at->is_string() ? at->get<std::string>() : "";
}

std::int64_t number_of(const nlohmann::json& data, const char* key) {
    const auto at = data.find(key);
    return at != data.end() && at->is_number_integer() ? at->get<std::int64_t>() : 0;
}

std::vector<std::string> list_of(const nlohmann::json& data, const char* key) {
    std::vector<std::string> list;
    const auto at = data.find(key);
    if (at == data.end() || !at->is_array()) return list;
    for (const auto& item : *at) {
        if (item.is_string()) list.push_back(item.get<std::string>());
    }
    return list;
}

}  // namespace holdpin
