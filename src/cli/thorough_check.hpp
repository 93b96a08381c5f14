// All that can be said of records without knowing their content: entries and seals, whether the
// present state is what the entries say, and whether private texts are those that were kept.
// `ledger check`, `backup` and the daily check of the copy ask for it.
#pragma once

#include <string>
#include <vector>

#include "ledger/check.hpp"
#include "records/damaged_texts.hpp"

namespace holdpin {

struct ThoroughReport {
    FullReport full;
    // Looked at only where the entries hold.
    std::vector<std::string> state;  // tables that are not what the entries say
    std::vector<DamagedText> texts;

    // What speaks against handing machines over. A damaged text does not: it counts as erased.
    std::optional<Error> doubt() const;
};

Result<ThoroughReport> check_thoroughly(Database& db, const Evidence& evidence);
// The same of a finished copy, with SQLite's own check of the file before it. Opens the file by
// itself and only to read, so a worker may do it while the data are in use.
Result<ThoroughReport> check_copy_thoroughly(const std::string& path, const Evidence& evidence);

}  // namespace holdpin
