#include "cli/stored_records.hpp"

#include <filesystem>

#include "cli/output.hpp"
#include "cli/paths.hpp"
#include "ledger/check.hpp"
#include "ledger/sealer.hpp"

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

Result<void> seal_now(StoredRecords& records, const std::string& data_dir,
                      const std::string& seal_copies) {
    const KioskKey key = TRY(load_kiosk_key(data_dir + "/kiosk.key"));
    const std::string outside = seal_copy_path(seal_copies, key.kiosk_id());
    const auto finding = TRY(look_at_start(*records.db, *records.ledger, key, outside));
    if (!finding.doubt.empty()) {
        return Error{ErrorKind::damaged, finding.doubt, "ledger", "run: holdpin ledger check"};
    }
    Sealer sealer(*records.db, *records.ledger, records.clock,
                  {key, outside, [](const Error& error) { complain(error); }});
    TRY(sealer.seal());
    sealer.keep_copy();
    return {};
}

}  // namespace holdpin
