// The records of a data directory without its content, so that they can be checked, folded again
// and exported even where the content has a fault. Enters nothing.
#pragma once

#include <memory>
#include <string>

#include "base/clock.hpp"
#include "base/random.hpp"
#include "ledger/ledger.hpp"
#include "store/database.hpp"

namespace holdpin {

struct StoredRecords {
    RealClock clock;
    SystemRandom random;
    std::unique_ptr<Database> db;
    std::unique_ptr<Ledger> ledger;  // in the place that its first entry names
};

// Absent where the directory is no site.
Result<std::unique_ptr<Database>> open_database(const std::string& data_dir);
Result<std::unique_ptr<StoredRecords>> open_records(const std::string& data_dir);

// Seals the entries as they are and brings the copy in the folder `seal_copies` up to that. Error:
// damaged, if they are not those that were sealed before; then nothing is sealed.
Result<void> seal_now(StoredRecords& records, const std::string& data_dir,
                      const std::string& seal_copies);

}  // namespace holdpin
