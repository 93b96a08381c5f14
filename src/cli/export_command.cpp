#include <fmt/format.h>

#include "binder/export.hpp"
#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/stored_records.hpp"

namespace holdpin {

int run_records_export(const Common& common, const std::string& out) {
    const auto records = open_records(common.data);
    if (!records) return complain(records.error());
    // Records come out also where nothing can be sealed, and then it is said why.
    const auto sealed = seal_now(*records.value(), common.data, common.seal_copies);
    if (!sealed) complain(sealed.error());
    const auto report = export_records(*records.value()->db, *records.value()->ledger, out);
    if (!report) return complain(report.error());
    say(fmt::format("{} entries are in {} ({} files). Root: {}", report.value().entries, out,
                    report.value().files.size(), report.value().root));
    return kExitFine;
}

}  // namespace holdpin
