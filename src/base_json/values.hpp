// Values of a JSON object that may lack them: entries of old versions have fewer keys. Where a key
// is absent or holds another kind of value, the answer is empty, or zero.
#pragma once

#include <cstdint>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

namespace holdpin {

std::string text_of(const nlohmann::json& data, const char* key);
std::int64_t number_of(const nlohmann::json& data, const char* key);  // whole numbers only
// The texts of a list; what is no text in it is left out.
std::vector<std::string> list_of(const nlohmann::json& data, const char* key);

}  // namespace holdpin
