#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/stored_records.hpp"
#include "ledger/check.hpp"
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
        case LedgerFault::unreadable: return "unreadable";
        case LedgerFault::inserted: return "inserted";
        case LedgerFault::removed: return "removed";
        case LedgerFault::reordered: return "reordered";
        case LedgerFault::rewritten: return "rewritten";
        case LedgerFault::cut_off: return "cut-off";
        case LedgerFault::bad_seal: return "bad-seal";
        case LedgerFault::moved_signature: return "moved-signature";
        case LedgerFault::missing_body: return "missing-body";
    }
    return "";
}

// What is asked, and what came of it.
struct Checked {
    Evidence evidence;
    std::string outside_path;
    std::string outside_remark;  // why the seal kept outside says nothing
    FullReport report;

    bool witness_missing() const { return evidence.witness && !report.witnessed; }
    bool fine() const {
        return report.ledger.fault == LedgerFault::none && !witness_missing() &&
               outside_remark.empty();
    }
};

Result<Checked> check_all(const Common& common, const std::string& witness, bool every) {
    Checked checked;
    checked.evidence.every_signature = every;
    if (!witness.empty()) checked.evidence.witness = TRY(witness_from(witness));
    const auto db = TRY(open_database(common.data));
    const KioskKey key = TRY(load_kiosk_key(common.data + "/kiosk.key"));
    checked.evidence.public_key = key.public_key;
    checked.outside_path = seal_copy_path(common.seal_copies, key.kiosk_id());
    auto outside = seal_outside(checked.outside_path, key.public_key);
    if (outside) {
        checked.evidence.outside = std::move(outside).value();
    } else {
        checked.outside_remark = outside.error().sentence();
    }
    checked.report = TRY(check_ledger(*db, checked.evidence));
    return checked;
}

void tell_json(const Checked& checked) {
    const LedgerReport& ledger = checked.report.ledger;
    const auto& asked = checked.evidence.witness;
    const auto& found = checked.report.witnessed;
    nlohmann::json witness;
    if (asked) witness = {{"code", asked->code}, {"found", found.has_value()}};
    if (found) witness["size"] = found->size;
    if (found && !found->time.empty()) witness["sealed"] = found->time;
    say_json({{"size", ledger.size},
              {"root", hex(ledger.root)},
              {"fault", name_of(ledger.fault)},
              {"first_bad", ledger.first_bad},
              {"what", ledger.what},
              {"clock_jumps", ledger.clock_jumps},
              {"seals", checked.report.seals},
              {"signatures", checked.report.signatures},
              {"newest_seal", checked.report.newest_seal},
              {"bad_seals", checked.report.bad_seals},
              {"outside", {{"path", checked.outside_path},
                           {"holds", checked.report.outside_holds},
                           {"remark", checked.outside_remark}}},
              {"witness", witness}});
}

void tell_witness(const Checked& checked) {
    const auto& found = checked.report.witnessed;
    const std::string& code = checked.evidence.witness->code;
    if (!found) {
        say(fmt::format("The ledger does not contain what the witness code {} was written for.",
                        code));
    } else if (found->time.empty()) {
        say(fmt::format("The witness code {} is that of the first {} entries.", code,
                        found->size));
    } else {
        say(fmt::format("The witness code {} is that of the seal of {} over {} entries.", code,
                        found->time, found->size));
    }
}

void tell_seals(const Checked& checked) {
    const FullReport& report = checked.report;
    say(fmt::format("Seals that hold: {}. The newest covers {} entries.", report.seals,
                    report.newest_seal));
    if (report.newest_seal < report.ledger.size) {
        say(fmt::format("Entries {} to {} are under no seal yet: nothing but their own hashes and "
                        "the order of their numbers speaks for them.",
                        report.newest_seal + 1, report.ledger.size));
    }
    if (report.signatures < report.seals) {
        say(fmt::format("Signatures verified: {}; all of them with --every-signature.",
                        report.signatures));
    }
    if (!checked.outside_remark.empty()) {
        say("The seal kept outside says nothing: " + checked.outside_remark + ".");
    } else if (report.outside_holds) {
        say(fmt::format("The seal kept outside holds; it covers {} entries.",
                        checked.evidence.outside->size));
    } else {
        say("No seal is kept outside, so an older copy of the data would not be noticed.");
    }
}

void tell(const Checked& checked) {
    const LedgerReport& ledger = checked.report.ledger;
    if (ledger.fault == LedgerFault::none) {
        say(fmt::format("All {} entries are as they were written. Root: {}", ledger.size,
                        hex(ledger.root)));
        for (const auto n : ledger.clock_jumps) {
            say(fmt::format("The wall clock was set back before entry {}.", n));
        }
        tell_seals(checked);
    } else if (ledger.fault == LedgerFault::bad_seal) {
        say(fmt::format("The entries agree, but {}.", ledger.what));
    } else {
        say(fmt::format("Entry {}: {}.", ledger.first_bad, ledger.what));
    }
    if (checked.evidence.witness) tell_witness(checked);
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

int run_ledger_check(const Common& common, const std::string& witness, bool every_signature) {
    const auto checked = check_all(common, witness, every_signature);
    if (!checked) {
        complain(checked.error());
        return checked.error().kind == ErrorKind::invalid ? kExitWrongUse : kExitWanting;
    }
    if (common.json) {
        tell_json(checked.value());
    } else {
        tell(checked.value());
    }
    return checked.value().fine() ? kExitFine : kExitWanting;
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
