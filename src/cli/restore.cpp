#include "cli/restore.hpp"

#include <filesystem>
#include <memory>
#include <optional>

#include "base/local_time.hpp"
#include "cli/paths.hpp"
#include "cli/two_signers.hpp"
#include "ledger/copy_check.hpp"
#include "ledger/sealer.hpp"
#include "records/book.hpp"
#include "records/fold.hpp"
#include "records/records.hpp"
#include "records/state_check.hpp"
#include "store/sync_path.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

namespace fs = std::filesystem;

Result<void> move_file(const std::string& from, const std::string& to) {
    std::error_code code;
    fs::rename(from, to, code);
    if (code) return Error{ErrorKind::failed, "cannot move: " + code.message(), from, ""};
    return sync_folder_of(to);
}

// One restoring, in the order of its steps.
class Restoring {
  public:
    Restoring(const RestoreAsked& asked, Clock& clock, Random& random)
        : asked_(asked), clock_(clock), random_(random) {}

    Result<RestoreDone> run() {
        key_ = TRY(load_kiosk_key(asked_.data + "/kiosk.key"));
        outside_path_ = seal_copy_path(asked_.seal_copies, key_.kiosk_id());
        TRY(look_at_present());
        TRY(look_outside());
        TRY(judge_backup());
        TRY(make_ready());
        TRY(take_place());
        return done_;
    }

  private:
    std::string live() const { return asked_.data + "/holdpin.db"; }
    std::string ready() const { return asked_.data + "/holdpin.db.restoring"; }

    void note_known(const std::optional<Seal>& seal) {
        if (seal && seal->size > done_.known && seal_holds(*seal, key_.public_key)) {
            known_ = seal;
            done_.known = seal->size;
        }
    }

    // Records that cannot be read are what a backup is for; records in use are not touched.
    Result<void> look_at_present() {
        std::error_code ignored;
        if (!fs::exists(live(), ignored)) return {};
        const auto db = Database::open(live(), {});
        if (!db && db.error().kind == ErrorKind::refused) return db.error();
        if (!db) return {};
        if (const auto newest = newest_seal(*db.value())) note_known(newest.value());
        return {};
    }

    Result<void> look_outside() {
        const auto seal = seal_outside(outside_path_, key_.public_key);
        if (seal) note_known(seal.value());
        return {};
    }

    Result<void> judge_backup() {
        std::error_code ignored;
        if (!fs::exists(asked_.backup, ignored)) {
            return Error{ErrorKind::absent, "there is no such file", asked_.backup,
                         "name a file that holdpin backup has made"};
        }
        const Evidence alone{key_.public_key, {}, {}};
        const FullReport report = TRY(check_copy(asked_.backup, alone));
        if (report.ledger.fault != LedgerFault::none) {
            return Error{ErrorKind::damaged, "this backup does not verify: " + report.ledger.what,
                         asked_.backup, "take another backup"};
        }
        done_.entries = report.ledger.size;
        root_ = report.ledger.root;
        if (!known_) return {};
        const Evidence with{key_.public_key, known_, {}};
        const FullReport held = TRY(check_copy(asked_.backup, with));
        if (held.ledger.fault == LedgerFault::none) return {};
        if (held.ledger.fault != LedgerFault::cut_off) {
            return Error{ErrorKind::damaged,
                         "this backup is not of the same record: " + held.ledger.what,
                         asked_.backup, "take another backup"};
        }
        done_.older = true;
        return asked_.older && asked_.badges.size() == 2 ? Result<void>() : too_old();
    }

    Error too_old() const {
        return {ErrorKind::refused,
                "this backup is older than a known seal: it has " + std::to_string(done_.entries) +
                    " entries, and the seal of " + known_->time + " covers " +
                    std::to_string(known_->size),
                asked_.backup,
                "take a newer one, or let two people say so: --older --by BADGE --by BADGE"};
    }

    // The backup under another name, opened as the records that it will be.
    Result<void> make_ready() {
        std::error_code code;
        drop_ready();
        fs::copy_file(asked_.backup, ready(), code);
        if (code) return Error{ErrorKind::failed, "cannot copy: " + code.message(), ready(), ""};
        fs::permissions(ready(), fs::perms::owner_read | fs::perms::owner_write, code);
        auto entered = enter();
        if (!entered) drop_ready();
        return entered;
    }
    void drop_ready() const {
        std::error_code ignored;
        for (const char* end : {"", "-wal"}) fs::remove(ready() + end, ignored);
    }

    Result<void> enter() {
        const auto db = TRY(Database::open(ready(), {}));
        const auto ledger = TRY(ledger_of(*db));
        Sealer sealer(*db, *ledger, clock_, {key_, "", nullptr});
        // The entries of the backup were checked; what was folded from them is not believed.
        TRY(drop_state_tables(*db));
        const auto book = TRY(Book::open(*db, *ledger, random_));
        TRY(note_state_doubt(*db, ""));
        Fact fact = restored();
        const auto live = present();
        if (done_.older) TRY(sign(*db, live.get(), fact));
        // An older copy must not take away a lock, or the count of wrong PINs.
        if (live) TRY(carry_pin_counters(*live, *db));
        return db->transaction([&]() -> Result<void> {
            TRY(book->enter(std::move(fact)));
            TRY(sealer.seal());
            seal_ = TRY(newest_seal(*db));
            return {};
        });
    }

    // At the place that its first entry names.
    Result<std::unique_ptr<Ledger>> ledger_of(Database& db) {
        const auto open = [&](Ledger::Place place) {
            return Ledger::open(db, clock_, random_, std::move(place));
        };
        const auto ledger = TRY(open({"", "", TRY(Zone::load("UTC"))}));
        const Entry first = TRY(ledger->at(1));
        return open({first.site, first.kiosk, TRY(Zone::load(first.zone))});
    }

    Fact restored() const {
        Fact fact;
        fact.kind = "restored";
        fact.data = {{"size", done_.entries},
                     {"root", hex(root_)},
                     {"older", done_.older},
                     {"known_size", done_.known},
                     {"known_root", known_ ? hex(known_->root) : ""}};
        return fact;
    }

    // The records that stand there now, if they can be opened.
    std::unique_ptr<Database> present() const {
        std::error_code ignored;
        if (!fs::exists(live(), ignored)) return nullptr;
        auto db = Database::open(live(), {});
        return db ? std::move(db).value() : nullptr;
    }

    Result<void> enter_refusal(Database& live, const std::string& person, const PinCheck& check) {
        const auto ledger = TRY(ledger_of(live));
        const auto book = TRY(Book::open(live, *ledger, random_));
        TRY(book->enter(refused_fact(person, check)));
        return {};
    }

    // By the PIN that holds now, counted and entered where it stays: the copy goes away with a
    // wrong one.
    Result<void> sign(Database& db, Database* live, Fact& fact) {
        const Bytes pepper = TRY(load_pepper(asked_.data + "/pepper"));
        PinBook copied(db, random_, pepper, PinCost::interactive);
        std::optional<PinBook> present;
        if (live != nullptr) present.emplace(*live, random_, pepper, PinCost::interactive);
        const CheckPin check = [&](const std::string& person,
                                   const std::string& pin) -> Result<PinCheck> {
            const auto known = present ? present->find(person)
                                       : Result<std::optional<Credential>>(std::nullopt);
            const bool counts = known && known.value();
            const PinCheck found =
                TRY((counts ? *present : copied).check(person, pin, clock_.now_ms()));
            // Records that cannot be written are what a backup is for: it is refused all the same.
            if (live != nullptr && found.answer != PinAnswer::right) {
                static_cast<void>(enter_refusal(*live, person, found));
            }
            return found;
        };
        return sign_by_two({db, check, asked_.ask_pin}, asked_.badges, "restore-older", fact);
    }

    Result<void> take_place() {
        std::error_code ignored;
        const std::string stamp = std::to_string(clock_.now_ms());
        TRY(sync_path(ready()));
        if (fs::exists(live(), ignored)) {
            done_.kept = live() + ".before-" + stamp;
            TRY(move_file(live(), done_.kept));
            // The log belongs to the file that it stands beside.
            if (fs::exists(live() + "-wal", ignored)) {
                TRY(move_file(live() + "-wal", done_.kept + "-wal"));
            }
        }
        TRY(move_file(ready(), live()));
        if (outside_path_.empty()) return {};
        const bool is_ours = seal_outside(outside_path_, key_.public_key).ok();
        if ((done_.older || !is_ours) && fs::exists(outside_path_, ignored)) {
            TRY(move_file(outside_path_, outside_path_ + ".before-" + stamp));
        }
        fs::create_directories(fs::path(outside_path_).parent_path(), ignored);
        return write_file(outside_path_, seal_body(*seal_) + "\n");
    }

    const RestoreAsked& asked_;
    Clock& clock_;
    Random& random_;
    KioskKey key_;
    std::string outside_path_;
    std::optional<Seal> known_;
    Hash root_{};
    std::optional<Seal> seal_;  // over the restored records
    RestoreDone done_;
};

}  // namespace

Result<RestoreDone> restore_site(const RestoreAsked& asked, Clock& clock, Random& random) {
    return Restoring(asked, clock, random).run();
}

}  // namespace holdpin
