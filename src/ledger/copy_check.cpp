#include "ledger/copy_check.hpp"

namespace holdpin {

Result<FullReport> check_copy(const std::string& path, const Evidence& evidence) {
    const auto db = TRY(Database::open(path, {.vfs = "", .read_only = true}));
    TRY(db->check());
    return check_ledger(*db, evidence);
}

}  // namespace holdpin
