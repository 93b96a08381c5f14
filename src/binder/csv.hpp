// Tables as RFC 4180 text: comma, double quotes, CRLF, UTF-8, a header row.
// Written so that a spreadsheet shows a cell and never runs it; read strictly, with line numbers.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace holdpin {

class CsvWriter {
  public:
    explicit CsvWriter(const std::vector<std::string_view>& header);

    // A cell that begins like a formula (= + - @ tab, carriage return) gets an apostrophe in front.
    CsvWriter& text(std::string_view cell);
    CsvWriter& number(std::int64_t value);
    // Digits that are written as they are: "1284.6", "2026-11-25".
    CsvWriter& plain(std::string_view cell);
    void end_row();

    const std::string& bytes() const { return bytes_; }

  private:
    void cell(std::string_view cell);
    std::string bytes_;
    bool row_started_ = false;
};

struct CsvRow {
    int line = 0;  // from 1, where the row begins
    std::vector<std::string> cells;
};
// Takes CRLF and LF, and a byte order mark. Error: invalid; `where` is the line.
Result<std::vector<CsvRow>> read_csv(std::string_view text);

}  // namespace holdpin
