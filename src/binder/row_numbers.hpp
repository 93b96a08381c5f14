// The entry number that each row of a table begins with, out of the lines of a CSV or of JSON lines
// as they are read. The header of a CSV is no row, and a row may go on over several lines.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace holdpin {

class RowNumbers {
  public:
    explicit RowNumbers(bool json) : json_(json), header_(!json) {}

    // `entry` is absent where the cell is empty. A cell that is no number counts as 0, which no
    // entry has.
    struct Row {
        std::optional<std::int64_t> entry;
    };
    // Absent: no row begins in this line.
    std::optional<Row> take(const std::string& line);

  private:
    bool json_;
    bool header_;
    bool quoted_ = false;
};

}  // namespace holdpin
