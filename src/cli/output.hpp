// What commands say, and where.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string_view>

#include "base/result.hpp"

namespace holdpin {

void say(std::string_view line);                 // standard output, with a line feed
void say_json(const nlohmann::json& value);
// The sentence of an error on standard error; returns kExitWanting.
int complain(const Error& error);

}  // namespace holdpin
