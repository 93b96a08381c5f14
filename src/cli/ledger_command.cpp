#include <fmt/format.h>

#include "base/text.hpp"
#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/stored_records.hpp"
#include "records/book.hpp"
#include "records/fold.hpp"

namespace holdpin {
namespace {

std::string_view name_of(LedgerFault fault) {
    switch (fault) {
        case LedgerFault::none: return "none";
        case LedgerFault::gap: return "gap";
        case LedgerFault::altered_body: return "altered-body";
        case LedgerFault::altered_leaf: return "altered-leaf";
        case LedgerFault::undecodable: return "undecodable";
    }
    return "";
}

int tell(const LedgerReport& report, bool json) {
    const bool fine = report.fault == LedgerFault::none;
    const std::string root = hex(report.root);
    if (json) {
        say_json({{"size", report.size},
                  {"root", root},
                  {"fault", name_of(report.fault)},
                  {"first_bad", report.first_bad},
                  {"what", report.what},
                  {"clock_jumps", report.clock_jumps}});
    } else if (fine) {
        say(fmt::format("All {} entries are as they were written. Root: {}", report.size, root));
        for (const auto n : report.clock_jumps) {
            say(fmt::format("The wall clock was set back before entry {}.", n));
        }
    } else {
        say(fmt::format("Entry {}: {}.", report.first_bad, report.what));
    }
    return fine ? kExitFine : kExitWanting;
}

Result<std::string> rebuilt(StoredRecords& records) {
    TRY(make_state_tables(*records.db));
    const std::string before = TRY(state_digest(*records.db));
    TRY(drop_state_tables(*records.db));
    TRY(Book::open(*records.db, *records.ledger, records.random));
    const std::string after = TRY(state_digest(*records.db));
    const std::string_view verdict = before == after ? "as it was before" : "not as it was before";
    return fmt::format("The present state was folded again from {} entries; it is {}.",
                       records.ledger->size(), verdict);
}

}  // namespace

int run_ledger_check(const Common& common) {
    const auto db = open_database(common.data);
    if (!db) return complain(db.error());
    const auto report = check_entries(*db.value());
    if (!report) return complain(report.error());
    return tell(report.value(), common.json);
}

int run_ledger_rebuild(const Common& common) {
    const auto records = open_records(common.data);
    if (!records) return complain(records.error());
    const auto line = rebuilt(*records.value());
    if (!line) return complain(line.error());
    say(line.value());
    return kExitFine;
}

}  // namespace holdpin
