#include "cli/thorough_check.hpp"

#include "records/state_check.hpp"

namespace holdpin {

std::optional<Error> ThoroughReport::doubt() const {
    if (full.ledger.fault != LedgerFault::none) {
        return Error{ErrorKind::damaged, full.ledger.what, "ledger",
                     "run: holdpin ledger check, then: holdpin restore with the newest backup"};
    }
    if (state.empty()) return std::nullopt;
    return Error{ErrorKind::damaged, state_doubt(state), kPresentState, kStateMend};
}

Result<ThoroughReport> check_thoroughly(Database& db, const Evidence& evidence) {
    ThoroughReport report;
    report.full = TRY(check_ledger(db, evidence));
    if (report.full.ledger.fault != LedgerFault::none) return report;
    report.state = TRY(state_differences(db));
    report.texts = TRY(damaged_texts(db));
    return report;
}

Result<ThoroughReport> check_copy_thoroughly(const std::string& path, const Evidence& evidence) {
    const auto db = TRY(Database::open(path, {.vfs = "", .read_only = true}));
    TRY(db->check());
    return check_thoroughly(*db, evidence);
}

}  // namespace holdpin
