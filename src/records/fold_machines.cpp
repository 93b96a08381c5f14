// What entries change about machines: rounds, findings, releases, overrides, the lock.
#include "records/fold_groups.hpp"

#include <array>

namespace holdpin {
namespace {

constexpr const char* kTables = R"sql(
CREATE TABLE IF NOT EXISTS s_machine(plate TEXT PRIMARY KEY, class TEXT NOT NULL,
  room TEXT NOT NULL, hours INTEGER NOT NULL, fuel INTEGER NOT NULL, service_every INTEGER NOT NULL,
  service_done INTEGER NOT NULL, inspection_due TEXT NOT NULL, as_truck INTEGER NOT NULL,
  returned_ms INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_finding(entry INTEGER PRIMARY KEY, machine TEXT NOT NULL,
  point TEXT NOT NULL, reading TEXT NOT NULL, outcome TEXT NOT NULL, hazard TEXT NOT NULL,
  at_ms INTEGER NOT NULL, by TEXT NOT NULL, source TEXT NOT NULL, open INTEGER NOT NULL,
  allowed INTEGER NOT NULL, allowed_until INTEGER NOT NULL, repaired INTEGER NOT NULL,
  rechecked INTEGER NOT NULL, text_hash TEXT NOT NULL, told INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_securing(entry INTEGER PRIMARY KEY, finding INTEGER NOT NULL,
  at_ms INTEGER NOT NULL, by TEXT NOT NULL, stated TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_round(entry INTEGER PRIMARY KEY, machine TEXT NOT NULL,
  kind TEXT NOT NULL, person TEXT NOT NULL, digest TEXT NOT NULL, signed_ms INTEGER NOT NULL,
  shift_end INTEGER NOT NULL, full INTEGER NOT NULL, used INTEGER NOT NULL,
  voided INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_release(entry INTEGER PRIMARY KEY, machine TEXT NOT NULL,
  person TEXT NOT NULL, room TEXT NOT NULL, from_ms INTEGER NOT NULL, until_ms INTEGER NOT NULL,
  returned INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_override(entry INTEGER PRIMARY KEY, machine TEXT NOT NULL,
  code TEXT NOT NULL, until_ms INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_lock(machine TEXT PRIMARY KEY, person TEXT NOT NULL,
  entry INTEGER NOT NULL) STRICT;
CREATE INDEX IF NOT EXISTS s_finding_open ON s_finding(machine) WHERE open=1;
CREATE INDEX IF NOT EXISTS s_finding_untold ON s_finding(by) WHERE open=0 AND told=0;
CREATE INDEX IF NOT EXISTS s_round_last ON s_round(machine, kind);
CREATE INDEX IF NOT EXISTS s_round_standing ON s_round(machine, kind, person) WHERE voided=0;
CREATE INDEX IF NOT EXISTS s_release_out ON s_release(machine) WHERE returned=0;
CREATE INDEX IF NOT EXISTS s_release_room ON s_release(room, returned);
CREATE INDEX IF NOT EXISTS s_override_machine ON s_override(machine);
)sql";
constexpr std::array kTableNames{"s_machine", "s_finding",  "s_round",
                                 "s_release", "s_override", "s_lock",
                                 "s_securing"};

Result<void> machine_enrolled(const Folding& f) {
    return f.db
        .query("INSERT INTO s_machine VALUES(?,?,?,?,?,?,?,?,?,0) ON CONFLICT(plate) DO UPDATE SET "
               "class=excluded.class, room=excluded.room, service_every=excluded.service_every, "
               "as_truck=excluded.as_truck")
        .bind(f.text("machine")).bind(f.text("class")).bind(f.text("room")).bind(f.tenths("hours"))
        .bind(f.integer("fuel")).bind(f.tenths("service_every")).bind(f.tenths("service_done"))
        .bind(f.text("inspection_due")).bind(std::int64_t{f.flag("approved_as_truck")})
        .run();
}

Result<void> finding_entered(const Folding& f) {
    return f.db.query("INSERT INTO s_finding VALUES(?,?,?,?,?,?,?,?,?,1,0,0,0,0,?,0)")
        .bind(f.entry.n).bind(f.text("machine")).bind(f.text("point")).bind(f.text("reading"))
        .bind(f.text("outcome")).bind(f.text("hazard")).bind(f.entry.at_ms).bind(f.signer())
        .bind(f.text("source")).bind(f.text("text"))
        .run();
}

Result<void> finding_described(const Folding& f) {
    return f.db
        .query("UPDATE s_finding SET reading=?, hazard=?, text_hash=CASE WHEN ?='' THEN text_hash "
               "ELSE ? END, by=CASE WHEN ?='' THEN by ELSE ? END WHERE entry=?")
        .bind(f.text("reading")).bind(f.text("hazard")).bind(f.text("text")).bind(f.text("text"))
        .bind(f.signer()).bind(f.signer()).bind(f.entry.about)
        .run();
}

Result<void> finding_secured(const Folding& f) {
    return f.db.query("INSERT INTO s_securing VALUES(?,?,?,?,?)")
        .bind(f.entry.n).bind(f.entry.about).bind(f.entry.at_ms).bind(f.signer())
        .bind(f.list("stated"))
        .run();
}

Result<void> finding_withdrawn(const Folding& f) {
    return f.db.query("UPDATE s_finding SET open=0 WHERE entry=?").bind(f.entry.about).run();
}

Result<void> limit_decided(const Folding& f) {
    return f.db
        .query("UPDATE s_finding SET allowed=?, allowed_until=?, text_hash=? WHERE entry=?")
        .bind(std::int64_t{f.flag("allowed")}).bind(f.integer("until_ms")).bind(f.text("text"))
        .bind(f.entry.about)
        .run();
}

Result<void> mark_findings(const Folding& f, std::string_view sql) {
    for (const auto n : f.entry.data.value("findings", std::vector<std::int64_t>())) {
        TRY(f.db.query(sql).bind(f.entry.n).bind(n).run());
    }
    return {};
}

Result<void> repair_stated(const Folding& f) {
    return mark_findings(f, "UPDATE s_finding SET repaired=?, rechecked=0 WHERE entry=?");
}

Result<void> recheck_done(const Folding& f) {
    constexpr const char* kFine = "UPDATE s_finding SET rechecked=? WHERE entry=?";
    constexpr const char* kNotFine =
        "UPDATE s_finding SET repaired=0, rechecked=0*? WHERE entry=?";
    return mark_findings(f, f.flag("fine") ? kFine : kNotFine);
}

Result<void> returned_to_service(const Folding& f) {
    return mark_findings(f, "UPDATE s_finding SET open=0*? WHERE entry=?");
}

Result<void> outcome_told(const Folding& f) {
    return mark_findings(f, "UPDATE s_finding SET told=? WHERE entry=?");
}

Result<void> round_signed(const Folding& f) {
    return f.db.query("INSERT INTO s_round VALUES(?,?,?,?,?,?,?,?,0,0)")
        .bind(f.entry.n).bind(f.text("machine")).bind(f.text("round_kind")).bind(f.signer())
        .bind(f.entry.content).bind(f.entry.at_ms).bind(f.integer("shift_end_ms"))
        .bind(std::int64_t{!f.flag("takeover")})
        .run();
}

Result<void> values_read(const Folding& f) {
    if (f.entry.data.contains("hours")) {
        TRY(f.db.query("UPDATE s_machine SET hours=? WHERE plate=?")
                .bind(f.tenths("hours")).bind(f.text("machine")).run());
    }
    if (f.entry.data.contains("fuel")) {
        TRY(f.db.query("UPDATE s_machine SET fuel=? WHERE plate=?")
                .bind(f.tenths("fuel") / 10).bind(f.text("machine")).run());
    }
    return {};
}

Result<void> round_signed_with_values(const Folding& f) {
    TRY(round_signed(f));
    return values_read(f);
}

// A release uses the round of its person and voids every other round of the machine.
Result<void> release_given(const Folding& f) {
    // Written so that an index finds the few that still stand, and not all that ever did.
    TRY(f.db.query("UPDATE s_round SET voided=1 WHERE machine=?1 AND kind='before' AND voided=0 "
                   "AND (person<?2 OR person>?2)")
            .bind(f.text("machine")).bind(f.text("person")).run());
    TRY(f.db.query("UPDATE s_round SET used=1 WHERE entry=?").bind(f.integer("round")).run());
    return f.db.query("INSERT INTO s_release VALUES(?,?,?,?,?,?,0)")
        .bind(f.entry.n).bind(f.text("machine")).bind(f.text("person")).bind(f.text("room"))
        .bind(f.entry.at_ms).bind(f.integer("until_ms"))
        .run();
}

Result<void> returned(const Folding& f) {
    TRY(f.db.query("UPDATE s_release SET returned=? WHERE machine=? AND returned=0")
            .bind(f.entry.at_ms).bind(f.text("machine")).run());
    TRY(f.db.query("UPDATE s_machine SET returned_ms=? WHERE plate=?")
            .bind(f.entry.at_ms).bind(f.text("machine")).run());
    if (f.integer("findings") == 0) return {};
    return f.db.query("UPDATE s_round SET voided=1 WHERE machine=? AND voided=0")
        .bind(f.text("machine")).run();
}

// The release ends without a return; a full round comes before the next one.
Result<void> release_voided(const Folding& f) {
    TRY(f.db.query("UPDATE s_release SET returned=? WHERE entry=? AND returned=0")
            .bind(f.entry.at_ms).bind(f.entry.about).run());
    return f.db.query("UPDATE s_round SET voided=1 WHERE machine=? AND voided=0")
        .bind(f.text("machine")).run();
}

Result<void> service_done(const Folding& f) {
    return f.db.query("UPDATE s_machine SET service_done=? WHERE plate=?")
        .bind(f.tenths("hours")).bind(f.text("machine")).run();
}

Result<void> inspection_done(const Folding& f) {
    return f.db.query("UPDATE s_machine SET inspection_due=? WHERE plate=?")
        .bind(f.text("next_due")).bind(f.text("machine")).run();
}

Result<void> override_placed(const Folding& f) {
    return f.db.query("INSERT INTO s_override VALUES(?,?,?,?)")
        .bind(f.entry.n).bind(f.text("machine")).bind(f.text("code")).bind(f.integer("until_ms"))
        .run();
}

Result<void> lockout_placed(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_lock VALUES(?,?,?)")
        .bind(f.text("machine")).bind(f.signer()).bind(f.entry.n).run();
}

Result<void> lockout_removed(const Folding& f) {
    return f.db.query("DELETE FROM s_lock WHERE machine=?").bind(f.text("machine")).run();
}

constexpr std::array kKinds{
    FoldKind{"machine-enrolled", machine_enrolled},
    FoldKind{"finding-entered", finding_entered},
    FoldKind{"finding-described", finding_described},
    FoldKind{"finding-secured", finding_secured},
    FoldKind{"finding-withdrawn", finding_withdrawn},
    FoldKind{"limit-decided", limit_decided},
    FoldKind{"repair-stated", repair_stated},
    FoldKind{"recheck-done", recheck_done},
    FoldKind{"returned-to-service", returned_to_service},
    FoldKind{"outcome-told", outcome_told},
    FoldKind{"round-signed", round_signed_with_values},
    FoldKind{"release-given", release_given},
    FoldKind{"returned", returned},
    FoldKind{"release-voided", release_voided},
    FoldKind{"service-done", service_done},
    FoldKind{"inspection-done", inspection_done},
    FoldKind{"override-placed", override_placed},
    FoldKind{"lockout-placed", lockout_placed},
    FoldKind{"lockout-removed", lockout_removed},
};

}  // namespace

const FoldGroup kMachinesFolds{kTables, kTableNames, kKinds};

}  // namespace holdpin
