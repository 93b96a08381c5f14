#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/seal_renewal.hpp"
#include "cli/stored_records.hpp"
#include "cli/thorough_check.hpp"
#include "ledger/check.hpp"
#include "records/book.hpp"
#include "records/fold.hpp"
#include "records/state_check.hpp"

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
    std::vector<std::string> state;
    std::vector<DamagedText> texts;
    std::string renewed;  // said, where the seal was put outside again

    bool witness_missing() const { return evidence.witness && !report.witnessed; }
    bool agrees() const { return report.ledger.fault == LedgerFault::none && state.empty(); }
    bool fine() const {
        return agrees() && !witness_missing() && outside_remark.empty() && texts.empty();
    }
};

Result<void> look_outside(Database& db, Checked& checked) {
    auto outside = seal_outside(checked.outside_path, checked.evidence.public_key);
    if (!outside) {
        checked.outside_remark = outside.error().sentence();
        return {};
    }
    checked.evidence.outside = std::move(outside).value();
    if (checked.evidence.outside) return {};
    const auto gone = TRY(gone_from_outside(db, checked.outside_path));
    if (gone) checked.outside_remark = gone->sentence();
    return {};
}

// Only a code from the paper book says that the data are not old.
Result<void> renew_seal(Database& db, Checked& checked) {
    if (!checked.agrees() || !checked.report.witnessed || checked.outside_remark.empty()) {
        return {};
    }
    checked.renewed =
        TRY(renew_seal_outside(db, checked.outside_path, RealClock().now_ms()));
    checked.outside_remark.clear();
    return {};
}

Result<Checked> check_all(const Common& common, const LedgerCheckAsked& asked) {
    Checked checked;
    checked.evidence.every_signature = asked.every_signature;
    if (!asked.witness.empty()) checked.evidence.witness = TRY(witness_from(asked.witness));
    if (asked.renew_seal && asked.witness.empty()) {
        return Error{ErrorKind::invalid, "a seal is renewed only on a code from the shift book", "",
                     "add: --witness CODE, with the newest code in the book"};
    }
    const auto db = TRY(open_database(common.data));
    const KioskKey key = TRY(load_kiosk_key(common.data + "/kiosk.key"));
    checked.evidence.public_key = key.public_key;
    checked.outside_path = seal_copy_path(common.seal_copies, key.kiosk_id());
    TRY(look_outside(*db, checked));
    ThoroughReport all = TRY(check_thoroughly(*db, checked.evidence));
    checked.report = std::move(all.full);
    checked.state = std::move(all.state);
    checked.texts = std::move(all.texts);
    if (asked.renew_seal) TRY(renew_seal(*db, checked));
    return checked;
}

nlohmann::json json_of(const std::vector<DamagedText>& texts) {
    auto list = nlohmann::json::array();
    for (const DamagedText& text : texts) {
        list.push_back({{"hash", text.hash}, {"about", text.about}, {"entries", text.entries}});
    }
    return list;
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
              {"state_differs", checked.state},
              {"damaged_texts", json_of(checked.texts)},
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
    if (!checked.renewed.empty()) {
        say(checked.renewed);
    } else if (!checked.outside_remark.empty()) {
        say("The seal kept outside says nothing: " + checked.outside_remark + ".");
    } else if (report.outside_holds) {
        say(fmt::format("The seal kept outside holds; it covers {} entries.",
                        checked.evidence.outside->size));
    } else {
        say("No seal is kept outside, so an older copy of the data would not be noticed.");
    }
}

// What stands beside the entries and follows from them.
void tell_beside(const Checked& checked) {
    if (checked.state.empty()) {
        say("The present state is what the entries say.");
    } else {
        say(Error{ErrorKind::damaged, state_doubt(checked.state), kPresentState, kStateMend}
                .sentence());
    }
    for (const DamagedText& text : checked.texts) {
        say(Error{ErrorKind::damaged, damaged_sentence(text), "", kTextMend}.sentence());
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
        tell_beside(checked);
    } else if (ledger.fault == LedgerFault::bad_seal) {
        say(fmt::format("The entries agree, but {}.", ledger.what));
    } else {
        say(fmt::format("Entry {}: {}.", ledger.first_bad, ledger.what));
    }
    if (checked.evidence.witness) tell_witness(checked);
}

Result<std::string> rebuilt(StoredRecords& records) {
    const auto differing = TRY(state_differences(*records.db));
    // Dropped before a book is opened: it would go on from what stands there.
    TRY(drop_state_tables(*records.db));
    TRY(Book::open(*records.db, *records.ledger, records.random));
    TRY(note_state_doubt(*records.db, ""));
    const std::string verdict = differing.empty()
                                    ? "as it was before"
                                    : "not as it was before, in " + joined(differing, ", ");
    return fmt::format("The present state was folded again from {} entries; it is {}.",
                       records.ledger->size(), verdict);
}

}  // namespace

int run_ledger_check(const Common& common, const LedgerCheckAsked& asked) {
    const auto checked = check_all(common, asked);
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
