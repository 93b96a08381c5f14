#include "binder/row_numbers.hpp"

#include <charconv>
#include <string_view>

namespace holdpin {
namespace {

std::optional<std::int64_t> number_in(std::string_view cell) {
    if (cell.empty() || cell == "null") return std::nullopt;
    std::int64_t value = 0;
    const auto [end, code] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
    const bool whole = code == std::errc{} && end == cell.data() + cell.size();
    return whole ? value : 0;
}

// A line that ends within quotes goes on in the next.
bool changes_quotes(const std::string& line) {
    bool odd = false;
    for (const char c : line) odd = odd != (c == '"');
    return odd;
}

}  // namespace

std::optional<RowNumbers::Row> RowNumbers::take(const std::string& line) {
    constexpr std::string_view kFirst = "{\"entry\":";
    const bool begins = !quoted_;
    if (!json_ && changes_quotes(line)) quoted_ = !quoted_;
    if (!begins) return std::nullopt;
    if (header_) {
        header_ = false;
        return std::nullopt;
    }
    std::string_view rest = line;
    if (json_) rest = rest.starts_with(kFirst) ? rest.substr(kFirst.size()) : "?";
    return Row{number_in(rest.substr(0, rest.find(',')))};
}

}  // namespace holdpin
