// What entries change about jobs at machines: the running job and its step, leaks of a coupling,
// the cylinder that is fitted, wet floors, tags on start controls.
#include "records/fold_groups.hpp"

#include <array>

namespace holdpin {
namespace {

constexpr const char* kTables = R"sql(
CREATE TABLE IF NOT EXISTS s_work(machine TEXT PRIMARY KEY, entry INTEGER NOT NULL,
  work TEXT NOT NULL, by TEXT NOT NULL, opened_ms INTEGER NOT NULL, digest TEXT NOT NULL,
  step TEXT NOT NULL, last_step TEXT NOT NULL, last_answer TEXT NOT NULL, last_by TEXT NOT NULL,
  place TEXT NOT NULL, drain TEXT NOT NULL, cylinder TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_leak(machine TEXT PRIMARY KEY, leaks INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_hose(machine TEXT PRIMARY KEY, finding INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_fitted(machine TEXT PRIMARY KEY, serial TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_hopper_up(machine TEXT PRIMARY KEY, entry INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_wet(room TEXT PRIMARY KEY, machine TEXT NOT NULL,
  at_ms INTEGER NOT NULL, entry INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_tag(machine TEXT PRIMARY KEY, code TEXT NOT NULL,
  finding INTEGER NOT NULL, issued_ms INTEGER NOT NULL, put_up INTEGER NOT NULL,
  put_up_by TEXT NOT NULL, read_by TEXT NOT NULL) STRICT;
)sql";
constexpr std::array kTableNames{"s_work", "s_leak", "s_hose", "s_fitted", "s_wet", "s_tag",
                                 "s_hopper_up"};

Result<void> work_opened(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_work VALUES(?,?,?,?,?,?,?,'','',?,'','','')")
        .bind(f.text("machine")).bind(f.entry.n).bind(f.text("work")).bind(f.signer())
        .bind(f.entry.at_ms).bind(f.entry.content).bind(f.text("step")).bind(f.signer())
        .run();
}

Result<void> note_leak(const Folding& f) {
    if (f.integer("leak") == 0) return {};
    return f.db.query("INSERT OR REPLACE INTO s_leak VALUES(?,?)")
        .bind(f.text("machine")).bind(f.integer("leak")).run();
}

Result<void> no_leaks(const Folding& f) {
    TRY(f.db.query("DELETE FROM s_hose WHERE machine=?").bind(f.text("machine")).run());
    return f.db.query("DELETE FROM s_leak WHERE machine=?").bind(f.text("machine")).run();
}

// Counted anew only where the coupling was soaped and dry; another job says nothing about it.
Result<void> note_coupling(const Folding& f) {
    if (f.flag("tight")) return no_leaks(f);
    return note_leak(f);
}

// The finding at the end of the ladder: its return to service says that the hose was changed.
Result<void> finding_entered(const Folding& f) {
    if (f.integer("leak") == 0) return {};
    return f.db.query("INSERT OR REPLACE INTO s_hose VALUES(?,?)")
        .bind(f.text("machine")).bind(f.entry.n).run();
}

Result<void> hopper_is_down(const Folding& f) {
    return f.db.query("DELETE FROM s_hopper_up WHERE machine=?").bind(f.text("machine")).run();
}

Result<void> note_hopper(const Folding& f) {
    if (f.text("hopper") == "down") return hopper_is_down(f);
    if (f.text("hopper") != "up") return {};
    return f.db.query("INSERT OR REPLACE INTO s_hopper_up VALUES(?,?)")
        .bind(f.text("machine")).bind(f.entry.n).run();
}

Result<void> work_step_done(const Folding& f) {
    TRY(note_coupling(f));
    TRY(note_hopper(f));
    return f.db
        .query("UPDATE s_work SET step=?, last_step=?, last_answer=?, last_by=?, "
               "place=CASE WHEN ?='' THEN place ELSE ? END, "
               "drain=CASE WHEN ?='' THEN drain ELSE ? END, "
               "cylinder=CASE WHEN ?='' THEN cylinder ELSE ? END WHERE machine=? AND entry=?")
        .bind(f.text("next")).bind(f.text("step")).bind(f.text("answer")).bind(f.signer())
        .bind(f.text("place")).bind(f.text("place")).bind(f.text("drain")).bind(f.text("drain"))
        .bind(f.text("cylinder")).bind(f.text("cylinder"))
        .bind(f.text("machine")).bind(f.entry.about)
        .run();
}

Result<void> work_over(const Folding& f) {
    return f.db.query("DELETE FROM s_work WHERE machine=? AND entry=?")
        .bind(f.text("machine")).bind(f.entry.about).run();
}

Result<void> work_stopped(const Folding& f) {
    TRY(note_leak(f));
    TRY(note_hopper(f));
    return work_over(f);
}

Result<void> work_finished(const Folding& f) {
    TRY(note_coupling(f));
    TRY(note_hopper(f));
    return work_over(f);
}

// Nothing more comes off a machine of which no row says so: an empty serial is not an unknown one.
Result<void> no_longer_fitted(const Folding& f) {
    return f.db.query("UPDATE s_fitted SET serial='' WHERE serial=? AND serial<>''")
        .bind(f.text("serial")).run();
}

Result<void> cylinder_unlisted(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_fitted VALUES(?,'')").bind(f.text("machine")).run();
}

Result<void> cylinder_set(const Folding& f) {
    TRY(no_longer_fitted(f));
    if (f.text("state") != "on-machine") return {};
    return f.db.query("INSERT OR REPLACE INTO s_fitted VALUES(?,?)")
        .bind(f.text("machine")).bind(f.text("serial")).run();
}

Result<void> floor_wet(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_wet VALUES(?,?,?,?)")
        .bind(f.text("room")).bind(f.text("machine")).bind(f.entry.at_ms).bind(f.entry.n)
        .run();
}

Result<void> floor_dry(const Folding& f) {
    return f.db.query("DELETE FROM s_wet WHERE room=?").bind(f.text("room")).run();
}

Result<void> tag_issued(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_tag VALUES(?,?,?,?,0,'','')")
        .bind(f.text("machine")).bind(f.text("code")).bind(f.entry.about).bind(f.entry.at_ms)
        .run();
}

Result<void> tag_put_up(const Folding& f) {
    return f.db
        .query("UPDATE s_tag SET put_up=1, put_up_by=?, read_by='' WHERE machine=? AND code=?")
        .bind(f.signer()).bind(f.text("machine")).bind(f.text("code")).run();
}

// Only the right code counts as read. Where it was not there it has to be put up again.
Result<void> tag_read(const Folding& f) {
    if (f.flag("matches")) {
        return f.db.query("UPDATE s_tag SET read_by=? WHERE machine=?")
            .bind(f.signer()).bind(f.text("machine")).run();
    }
    return f.db.query("UPDATE s_tag SET put_up=0, put_up_by='', read_by='' WHERE machine=?")
        .bind(f.text("machine")).run();
}

// A hose that was changed has had no leak: only the return of its own finding says so.
Result<void> hose_returned(const Folding& f) {
    Query query = f.db.query("SELECT finding FROM s_hose WHERE machine=?");
    query.bind(f.text("machine"));
    if (!TRY(query.next())) return {};
    const std::int64_t hose = query.integer(0);
    for (const auto n : f.entry.data.value("findings", std::vector<std::int64_t>())) {
        if (n == hose) return no_leaks(f);
    }
    return {};
}

// The tag comes off with the return to service that says so.
Result<void> returned_to_service(const Folding& f) {
    TRY(hose_returned(f));
    if (f.text("tag").empty()) return {};
    return f.db.query("DELETE FROM s_tag WHERE machine=? AND code=?")
        .bind(f.text("machine")).bind(f.text("tag")).run();
}

// A tag that nobody has put up goes with the last finding that was withdrawn.
Result<void> finding_withdrawn(const Folding& f) {
    return f.db
        .query("DELETE FROM s_tag WHERE machine=? AND put_up=0 AND NOT EXISTS "
               "(SELECT 1 FROM s_finding WHERE machine=s_tag.machine AND open=1 "
               "AND outcome='stop')")
        .bind(f.text("machine")).run();
}

constexpr std::array kKinds{
    FoldKind{"finding-entered", finding_entered},
    FoldKind{"work-opened", work_opened},
    FoldKind{"work-step-done", work_step_done},
    FoldKind{"work-stopped", work_stopped},
    FoldKind{"work-finished", work_finished},
    FoldKind{"lift-off", hopper_is_down},  // from here the lockout holds until it is signed down
    FoldKind{"cylinder-set", cylinder_set},
    FoldKind{"cylinder-given-back", no_longer_fitted},
    FoldKind{"cylinder-unlisted", cylinder_unlisted},
    FoldKind{"floor-wet", floor_wet},
    FoldKind{"floor-dry", floor_dry},
    FoldKind{"tag-issued", tag_issued},
    FoldKind{"tag-put-up", tag_put_up},
    FoldKind{"tag-read", tag_read},
    FoldKind{"returned-to-service", returned_to_service},
    FoldKind{"finding-withdrawn", finding_withdrawn},
};

}  // namespace

const FoldGroup kWorksFolds{kTables, kTableNames, kKinds};

}  // namespace holdpin
