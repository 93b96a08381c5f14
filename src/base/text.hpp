// Small pieces of text handling that several rooms share.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace holdpin {

using Bytes = std::vector<std::uint8_t>;

std::string hex(std::span<const std::uint8_t> bytes);  // lower case
Result<Bytes> unhex(std::string_view text);

std::string_view trimmed(std::string_view text);
std::vector<std::string> split(std::string_view text, char separator);
std::string joined(const std::vector<std::string>& parts, std::string_view separator);

// Number of code points of a UTF-8 text; damaged bytes count one each.
std::size_t code_points(std::string_view utf8);
// Takes away the last code point.
void drop_last_code_point(std::string& utf8);
// Each code point by itself.
std::vector<std::string> letters_of(std::string_view utf8);

// A whole file. Errors: absent, failed.
Result<std::string> read_file(const std::string& path);
// A file that is for its owner only. Error: refused, where group or others have any right to it.
Result<std::string> read_secret(const std::string& path);
// Writes a temporary neighbour, syncs it and renames it over `path`: all or nothing.
Result<void> write_file(const std::string& path, std::string_view bytes, int mode = 0644);

// Tenths as text: 12846 -> "1284.6".
std::string tenths_text(std::int64_t tenths);
// "1284.6" or "1284" -> 12846. At most one decimal, never negative.
Result<std::int64_t> parse_tenths(std::string_view text);
// A decimal number, as entries carry it: "4.25", "-1", "35". Never "nan" or "inf".
Result<double> parse_decimal(std::string_view text);
// Puts a thin no-break space between thousands: "12846.5" -> "12 846.5".
std::string with_thousands(std::string_view number);

// The nearest of `known` to a word that is not among them, or empty when none is near
// (at most two letters added, left out or changed).
std::string nearest(std::string_view word, const std::vector<std::string>& known);

}  // namespace holdpin
