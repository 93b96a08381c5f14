#include "binder/row_numbers.hpp"

#include <charconv>
#include <fstream>
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

Result<void> each_row_number(
    const std::string& path,
    const std::function<Result<void>(std::optional<std::int64_t>)>& visit) {
    constexpr std::string_view kFirst = "{\"entry\":";
    const bool json = path.ends_with(".jsonl");
    std::ifstream file(path, std::ios::binary);
    std::string line;
    bool header = !json;
    bool quoted = false;
    while (std::getline(file, line)) {
        const bool begins = !quoted;
        if (!json && changes_quotes(line)) quoted = !quoted;
        if (!begins) continue;
        if (header) {
            header = false;
            continue;
        }
        std::string_view rest = line;
        if (json) rest = rest.starts_with(kFirst) ? rest.substr(kFirst.size()) : "?";
        TRY(visit(number_in(rest.substr(0, rest.find(',')))));
    }
    return {};
}

}  // namespace holdpin
