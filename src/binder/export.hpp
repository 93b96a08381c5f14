// The records as files that need no program of ours to read: tables, the exact entries, and the
// sums to check them with. See binder/FORMAT.md.
// The folder comes into being as a whole or not at all; nothing is changed in the site's data.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "ledger/ledger.hpp"
#include "store/database.hpp"

namespace holdpin {

struct ExportReport {
    std::uint64_t entries = 0;
    std::string root;                // hex, of the tree over all entries
    std::vector<std::string> files;  // names in the folder
};

// Refused where `out_dir` exists and holds anything.
Result<ExportReport> export_records(Database& db, Ledger& ledger, const std::string& out_dir);

}  // namespace holdpin
