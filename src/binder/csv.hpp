// Tables as RFC 4180 text: comma, double quotes, CRLF, UTF-8, a header row.
// Written so that a spreadsheet shows a cell and never runs it; read strictly, with line numbers.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace holdpin {

// Adds a row and its line end. A cell that begins with = + - @, a tab or a carriage return and is
// no plain number gets an apostrophe in front.
void add_csv_row(std::string& text, const std::vector<std::string>& cells);

struct CsvRow {
    int line = 0;  // from 1, where the row begins
    std::vector<std::string> cells;
};
// Takes CRLF and LF, and a byte order mark. Error: invalid; `where` is the line.
Result<std::vector<CsvRow>> read_csv(std::string_view text);

}  // namespace holdpin
