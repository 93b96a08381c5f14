// One way to write a JSON value as bytes: RFC 8785 for what Holdpin signs and hashes.
// Objects, arrays, text, whole numbers up to 2^53 - 1 in size, booleans and null.
// Refuses: numbers with a point (they are written as text), larger integers, text that is no
// UTF-8, nesting deeper than kCanonicalDepthMax. Does not read JSON.
#pragma once

#include <cstdint>
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "base/result.hpp"

namespace holdpin {

inline constexpr std::int64_t kCanonicalIntegerMax = (std::int64_t{1} << 53) - 1;
inline constexpr int kCanonicalDepthMax = 64;

// Error: invalid; `where` is a path such as "/data/readings/3".
Result<std::string> canonical(const nlohmann::json& value);

}  // namespace holdpin
