// The entry number that each row of a table begins with, out of CSV or JSON lines, however long the
// file is. The header of a CSV is no row.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "base/result.hpp"

namespace holdpin {

// Absent: the cell is empty. A cell that is no number counts as 0, which no entry has.
Result<void> each_row_number(
    const std::string& path,
    const std::function<Result<void>(std::optional<std::int64_t>)>& visit);

}  // namespace holdpin
