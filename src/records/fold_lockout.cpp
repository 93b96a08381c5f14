// What entries change about lockouts: the state of each that runs, the lock register, who has to be
// told of a lock that was taken off, and the procedures.
#include <array>

#include "records/fold_groups.hpp"
#include "records/lockout.hpp"

namespace holdpin {
namespace {

constexpr const char* kTables = R"sql(
CREATE TABLE IF NOT EXISTS s_lockout(machine TEXT PRIMARY KEY, class TEXT NOT NULL,
  lead TEXT NOT NULL, entry INTEGER NOT NULL, state TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_padlock(device TEXT PRIMARY KEY, person TEXT NOT NULL,
  at_ms INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_lock_told(entry INTEGER PRIMARY KEY, machine TEXT NOT NULL,
  device TEXT NOT NULL, person TEXT NOT NULL, by TEXT NOT NULL, second TEXT NOT NULL,
  at_ms INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_procedure(class TEXT NOT NULL, procedure TEXT NOT NULL,
  at_ms INTEGER NOT NULL, by TEXT NOT NULL, PRIMARY KEY(class, procedure)) STRICT;
CREATE TABLE IF NOT EXISTS s_procedure_use(class TEXT NOT NULL, person TEXT NOT NULL,
  at_ms INTEGER NOT NULL, PRIMARY KEY(class, person)) STRICT;
CREATE TABLE IF NOT EXISTS s_procedure_last(class TEXT PRIMARY KEY, at_ms INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_arm_alone(class TEXT PRIMARY KEY, at_ms INTEGER NOT NULL,
  by TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_lockout_over(machine TEXT PRIMARY KEY, entry INTEGER NOT NULL,
  lead TEXT NOT NULL, at_ms INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_lockout_over_told(person TEXT NOT NULL, machine TEXT NOT NULL,
  entry INTEGER NOT NULL, PRIMARY KEY(person, machine)) STRICT;
CREATE TABLE IF NOT EXISTS s_rinse_left(machine TEXT PRIMARY KEY, at_ms INTEGER NOT NULL) STRICT;
)sql";
constexpr std::array kTableNames{"s_lockout",       "s_padlock",   "s_lock_told", "s_procedure",
                                 "s_procedure_use", "s_arm_alone", "s_rinse_left",
                                 "s_procedure_last", "s_lockout_over",
                                 "s_lockout_over_told"};

Result<void> note_use(const Folding& f, const std::string& person) {
    return f.db
        .query("INSERT OR REPLACE INTO s_procedure_use "
               "SELECT class, ?, ? FROM s_lockout WHERE machine=?")
        .bind(person).bind(f.entry.at_ms).bind(f.text("machine"))
        .run();
}

// A second opening while one runs changes nothing.
Result<void> lockout_opened(const Folding& f) {
    const Lockout state = opened(TRY(opening_of(f.entry)));
    TRY(f.db.query("INSERT OR IGNORE INTO s_lockout VALUES(?,?,?,?,?)")
            .bind(state.machine).bind(f.text("machine_class")).bind(state.lead).bind(f.entry.n)
            .bind(lockout_text(state)).run());
    return note_use(f, state.lead);
}

Result<void> keep_lock(const Folding& f, const Lockout& before, const LockoutEvent& event) {
    if (event.deed == LockoutDeed::place_lock) {
        TRY(note_use(f, event.by));
        return f.db.query("INSERT OR REPLACE INTO s_padlock VALUES(?,?,?)")
            .bind(event.item).bind(event.by).bind(f.entry.at_ms).run();
    }
    if (event.deed != LockoutDeed::remove_for_absent) return {};
    const auto lock = before.locks.find(event.owner);
    return f.db.query("INSERT INTO s_lock_told VALUES(?,?,?,?,?,?,?)")
        .bind(f.entry.n).bind(before.machine)
        .bind(lock == before.locks.end() ? std::string() : lock->second.device)
        .bind(event.owner).bind(event.by).bind(event.second).bind(f.entry.at_ms)
        .run();
}

// What does not follow from the state before it is kept in the ledger and changes nothing here.
Result<void> lockout_moved(const Folding& f) {
    auto event = lockout_event_of(f.entry);
    const auto before = TRY(lockout_of(f.db, f.text("machine")));
    if (!event || !before) return {};
    // Entries without a number are from when the tick alone said that everybody is out.
    if (!event->seen) event->seen = static_cast<int>(people_on(*before).size());
    event->visitors = TRY(visitors_in(f.db, *event));
    const auto after = apply(*before, *event);
    if (!after) return {};
    TRY(keep_lock(f, *before, *event));
    if (event->deed == LockoutDeed::shut_down && before->job == LockoutJob::me) {
        TRY(f.db.query("INSERT OR REPLACE INTO s_procedure_last "
                       "SELECT class, ? FROM s_lockout WHERE machine=?")
                .bind(f.entry.at_ms).bind(before->machine).run());
    }
    if (holds_machine(after.value())) {
        return f.db.query("UPDATE s_lockout SET lead=?, state=? WHERE machine=?")
            .bind(after.value().lead).bind(lockout_text(after.value())).bind(before->machine).run();
    }
    TRY(f.db.query("DELETE FROM s_rinse_left WHERE machine=?").bind(before->machine).run());
    TRY(f.db.query("INSERT OR REPLACE INTO s_lockout_over VALUES(?,?,?,?)")
            .bind(before->machine).bind(f.entry.n).bind(before->lead).bind(f.entry.at_ms).run());
    return f.db.query("DELETE FROM s_lockout WHERE machine=?").bind(before->machine).run();
}

Result<void> removal_acknowledged(const Folding& f) {
    return f.db.query("DELETE FROM s_lock_told WHERE entry=? AND person=?")
        .bind(f.entry.about).bind(f.signer()).run();
}

Result<void> lockout_over_told(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_lockout_over_told VALUES(?,?,?)")
        .bind(f.signer()).bind(f.text("machine")).bind(f.entry.about).run();
}

Result<void> procedure_inspected(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_procedure VALUES(?,?,?,?)")
        .bind(f.text("machine_class")).bind(f.text("procedure")).bind(f.entry.at_ms)
        .bind(f.signer()).run();
}

Result<void> arm_alone_assessed(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_arm_alone VALUES(?,?,?)")
        .bind(f.text("machine_class")).bind(f.entry.at_ms).bind(f.signer()).run();
}

Result<void> rinse_left(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_rinse_left VALUES(?,?)")
        .bind(f.text("machine")).bind(f.entry.at_ms).run();
}

constexpr std::array kKinds{
    FoldKind{"lockout-opened", lockout_opened},
    FoldKind{"lockout-shut-down", lockout_moved},
    FoldKind{"prop-set", lockout_moved},
    FoldKind{"prop-seen", lockout_moved},
    FoldKind{"energy-isolated", lockout_moved},
    FoldKind{"lock-placed", lockout_moved},
    FoldKind{"energy-relieved", lockout_moved},
    FoldKind{"lockout-tried", lockout_moved},
    FoldKind{"lockout-reverified", lockout_moved},
    FoldKind{"reverify-missed", lockout_moved},
    FoldKind{"zone-left", lockout_moved},
    FoldKind{"lockout-test-run", lockout_moved},
    FoldKind{"lockout-test-ended", lockout_moved},
    FoldKind{"lockout-cleared", lockout_moved},
    FoldKind{"lock-removed", lockout_moved},
    FoldKind{"lock-removed-for-absent", lockout_moved},
    FoldKind{"lock-handed-over", lockout_moved},
    FoldKind{"lift-off", lockout_moved},
    FoldKind{"engine-stopped", lockout_moved},
    FoldKind{"prop-stowed", lockout_moved},
    FoldKind{"lockout-closed", lockout_moved},
    FoldKind{"lockout-procedure-reviewed", lockout_moved},
    FoldKind{"energy-measure-taken", lockout_moved},
    FoldKind{"procedures-told", lockout_moved},
    FoldKind{"prop-damaged", lockout_moved},
    FoldKind{"lock-removal-acknowledged", removal_acknowledged},
    FoldKind{"lockout-over-told", lockout_over_told},
    FoldKind{"lockout-procedure-inspected", procedure_inspected},
    FoldKind{"arm-alone-assessed", arm_alone_assessed},
    FoldKind{"rinse-left", rinse_left},
};

}  // namespace

const FoldGroup kLockoutFolds{kTables, kTableNames, kKinds};

}  // namespace holdpin
