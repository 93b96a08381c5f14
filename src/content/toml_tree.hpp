// TOML text into nodes. The one place that knows the parser library.
// Refuses files over kFileBytesMax, lines over kLineBytesMax and nesting over kNodeDepthMax, so
// that a damaged file cannot exhaust memory or the stack.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "content/fault.hpp"
#include "content/node.hpp"

namespace holdpin {

inline constexpr std::size_t kFileBytesMax = 1024 * 1024;
inline constexpr std::size_t kLineBytesMax = 4000;
inline constexpr int kNodeDepthMax = 16;

// The table of the file, or nothing and one fault.
std::optional<Node> parse_toml(const std::string& file, std::string_view text, Faults& faults);

}  // namespace holdpin
