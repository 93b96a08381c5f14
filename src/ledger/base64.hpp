// Bytes as text: RFC 4648 section 4, with `=` at the end.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/text.hpp"

namespace holdpin {

std::string base64(std::span<const std::uint8_t> bytes);
// Nothing, where the text is empty or is no such text.
std::optional<Bytes> from_base64(std::string_view text);

}  // namespace holdpin
