#include "cli/stored_records.hpp"

#include <filesystem>

namespace holdpin {

Result<std::unique_ptr<Database>> open_database(const std::string& data_dir) {
    std::error_code ignored;
    const std::string path = data_dir + "/holdpin.db";
    if (!std::filesystem::exists(path, ignored)) {
        return Error{ErrorKind::absent, "there is no site here", data_dir,
                     "make one: holdpin init --data DIR --site SITE"};
    }
    return Database::open(path, {});
}

Result<std::unique_ptr<StoredRecords>> open_records(const std::string& data_dir) {
    auto records = std::make_unique<StoredRecords>();
    records->db = TRY(open_database(data_dir));
    const auto open = [&](const Ledger::Place& place) {
        return Ledger::open(*records->db, records->clock, records->random, place);
    };
    records->ledger = TRY(open({"", "", TRY(Zone::load("UTC"))}));
    if (records->ledger->size() == 0) return records;
    const Entry first = TRY(records->ledger->at(1));
    records->ledger = TRY(open({first.site, first.kiosk, TRY(Zone::load(first.zone))}));
    return records;
}

}  // namespace holdpin
