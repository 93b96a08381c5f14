#include "ledger/check.hpp"
#include "ledger/quick_check.hpp"
#include "ledger/rows.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

constexpr const char* kOutside = "the seal kept outside";
constexpr std::string_view kOutsideFact = "seal-outside";
constexpr const char* kRenew =
    "run: holdpin ledger check --renew-seal --witness CODE, with the newest code in the shift book";

std::string count(std::uint64_t size) { return std::to_string(size) + " entries"; }

// The seals beside the entries, smallest first, while the tree grows past them.
class SealsInOrder {
  public:
    SealsInOrder(Database& db, const Bytes& public_key, FullReport& report)
        : query_(db.query("SELECT size, body FROM every_seal ORDER BY size")),
          public_key_(public_key),
          report_(report) {
        advance();
    }

    // The seal over `size` entries; seals that do not hold are noted and passed over.
    const Seal* over(std::uint64_t size) {
        while (next_ && next_->size < size) advance();
        return next_ && next_->size == size ? &*next_ : nullptr;
    }
    const Seal* beyond(std::uint64_t size) {
        while (next_ && next_->size <= size) advance();
        return next_ ? &*next_ : nullptr;
    }
    // Notes what is still to come.
    void finish() {
        while (next_) advance();
    }

  private:
    // A fault of the file counts as a bad seal over 0 entries.
    void advance() {
        next_.reset();
        while (!next_) {
            const auto more = query_.next();
            if (!more) report_.bad_seals.push_back(0);
            if (!more || !more.value()) return;
            take_row();
        }
    }

    void take_row() {
        auto seal = seal_from(query_.text(1));
        const auto size = static_cast<std::uint64_t>(query_.integer(0));
        if (seal && seal.value().size == size && seal_holds(seal.value(), public_key_)) {
            next_ = std::move(seal).value();
            ++report_.seals;
            ++report_.signatures;
            report_.newest_seal = size;
        } else {
            report_.bad_seals.push_back(size);
        }
    }

    Query query_;
    const Bytes& public_key_;
    FullReport& report_;
    std::optional<Seal> next_;
};

// Holds the growing tree against everything that was said about it before.
class Comparison {
  public:
    Comparison(Database& db, const Evidence& evidence, FullReport& report)
        : evidence_(evidence), report_(report), seals_(db, evidence.public_key, report) {}

    bool grown(const Frontier& tree, LedgerReport& ledger) {
        const Seal* seal = seals_.over(tree.size());
        if (seal != nullptr && !agrees(*seal, tree, ledger, "the seal")) return false;
        if (seal != nullptr) note_witness(*seal);
        if (is_outside(tree.size())) {
            if (!agrees(*evidence_.outside, tree, ledger, kOutside)) return false;
            note_witness(*evidence_.outside);
            report_.outside_holds = true;
        }
        if (evidence_.witness && evidence_.witness->size == tree.size()) {
            note_witness({tree.size(), tree.root(), "", "", {}});
        }
        return true;
    }

    void finish(LedgerReport& ledger) {
        if (ledger.fault == LedgerFault::none) {
            if (const Seal* seal = seals_.beyond(ledger.size)) cut_off(*seal, ledger, "a seal");
            if (evidence_.outside && evidence_.outside->size > ledger.size) {
                cut_off(*evidence_.outside, ledger, kOutside);
            }
        }
        seals_.finish();
        if (ledger.fault == LedgerFault::none && !report_.bad_seals.empty()) {
            ledger.fault = LedgerFault::bad_seal;
            ledger.what = "the seal over " + count(report_.bad_seals.front()) +
                          " cannot be read or is not signed by this kiosk";
        }
    }

  private:
    bool is_outside(std::uint64_t size) const {
        return evidence_.outside && evidence_.outside->size == size;
    }

    bool agrees(const Seal& seal, const Frontier& tree, LedgerReport& ledger,
                const std::string& which) {
        const Hash root = tree.root();
        if (seal.root == root) {
            good_size_ = seal.size;
            good_root_ = root;
            return true;
        }
        ledger.fault = LedgerFault::rewritten;
        ledger.first_bad = static_cast<std::int64_t>(good_size_) + 1;
        ledger.what = "the first change is in entries " + std::to_string(ledger.first_bad) +
                      " to " + std::to_string(seal.size) + ": they are not those that " + which +
                      " of " + seal.time + " covers";
        ledger.size = good_size_;
        ledger.root = good_root_;
        return false;
    }

    static void cut_off(const Seal& seal, LedgerReport& ledger, const std::string& which) {
        ledger.fault = LedgerFault::cut_off;
        ledger.first_bad = static_cast<std::int64_t>(ledger.size) + 1;
        ledger.what = "entries " + std::to_string(ledger.first_bad) + " to " +
                      std::to_string(seal.size) + " are missing: " + which + " of " + seal.time +
                      " covers them";
    }

    void note_witness(const Seal& seal) {
        const auto& asked = evidence_.witness;
        const bool size_fits = asked && (!asked->size || *asked->size == seal.size);
        if (!size_fits || witness_code(seal.size, seal.root) != asked->code) return;
        if (!report_.witnessed) report_.witnessed = seal;
    }

    const Evidence& evidence_;
    FullReport& report_;
    SealsInOrder seals_;
    std::uint64_t good_size_ = 0;
    Hash good_root_ = Frontier().root();
};

// Empty, or why these entries are not those that the seal was put on.
Result<std::string> contradiction(Ledger& ledger, const Seal& seal, const std::string& which) {
    if (seal.size > ledger.size()) {
        return "the data are older than " + which + " of " + seal.time + ": it covers " +
               count(seal.size) + ", and there are " + std::to_string(ledger.size());
    }
    if (TRY(ledger.root_at(seal.size)) == seal.root) return std::string();
    return "the first " + count(seal.size) + " are not those that " + which + " of " + seal.time +
           " covers";
}

Result<std::string> doubt_within(Database& db, Ledger& ledger, const KioskKey& key) {
    const auto newest = newest_seal(db);
    if (!newest) return "the newest seal cannot be read: " + newest.error().what;
    if (!newest.value()) return std::string();
    const Seal& seal = *newest.value();
    if (!seal_holds(seal, key.public_key)) {
        return "the newest seal, over " + count(seal.size) + ", is not signed by this kiosk";
    }
    return contradiction(ledger, seal, "the newest seal");
}

}  // namespace

Result<FullReport> check_ledger(Database& db, const Evidence& evidence) {
    if (auto all_holds = TRY(check_quickly(db, evidence))) return std::move(*all_holds);
    FullReport report;
    Comparison comparison(db, evidence, report);
    report.ledger = TRY(read_rows(db, [&](const Frontier& tree, LedgerReport& ledger) {
        return comparison.grown(tree, ledger);
    }, &evidence.public_key));
    comparison.finish(report.ledger);
    return report;
}

Result<std::optional<Seal>> seal_outside(const std::string& path, const Bytes& public_key) {
    std::optional<Seal> found;
    if (path.empty()) return found;
    const auto body = read_file(path);
    if (!body && body.error().kind == ErrorKind::absent) return found;
    if (!body) return body.error();
    auto seal = seal_from(trimmed(body.value()));
    if (!seal || !seal_holds(seal.value(), public_key)) {
        return Error{ErrorKind::damaged, "what is kept outside is no seal of this kiosk", path,
                     kRenew};
    }
    found = std::move(seal).value();
    return found;
}

Result<void> note_seal_outside(Database& db) { return set_fact(db, kOutsideFact, "kept"); }

Result<std::optional<Error>> gone_from_outside(Database& db, const std::string& path) {
    std::optional<Error> gone;
    if (path.empty() || !TRY(fact(db, kOutsideFact))) return gone;
    gone = Error{ErrorKind::absent, "the seal that was kept outside is gone", path, kRenew};
    return gone;
}

Result<StartFinding> look_at_start(Database& db, Ledger& ledger, const KioskKey& key,
                                   const std::string& outside_path) {
    StartFinding finding;
    finding.doubt = TRY(doubt_within(db, ledger, key));
    const auto outside = seal_outside(outside_path, key.public_key);
    if (!finding.doubt.empty()) return finding;
    if (outside && outside.value()) {
        finding.doubt = TRY(contradiction(ledger, *outside.value(), kOutside));
        return finding;
    }
    // Whoever puts old data back would spoil the seal that shows it, or take it away.
    const auto why = outside ? TRY(gone_from_outside(db, outside_path)) : outside.error();
    if (!why) return finding;
    return StartFinding{why->where + ": " + why->what, why->mend};
}

}  // namespace holdpin
