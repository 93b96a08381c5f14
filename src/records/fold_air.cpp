// What entries change about rooms and gas: doors, readings, alarms, tailpipe tests, cylinders.
#include "records/fold_groups.hpp"

#include <array>

namespace holdpin {
namespace {

constexpr const char* kTables = R"sql(
CREATE TABLE IF NOT EXISTS s_room(id TEXT PRIMARY KEY, closed INTEGER NOT NULL,
  entry INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_door(room TEXT NOT NULL, door TEXT NOT NULL, open INTEGER NOT NULL,
  at_ms INTEGER NOT NULL, entry INTEGER NOT NULL, PRIMARY KEY(room, door)) STRICT;
CREATE TABLE IF NOT EXISTS s_tailpipe(machine TEXT PRIMARY KEY, co_lmin TEXT NOT NULL,
  tested TEXT NOT NULL, entry INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_air(entry INTEGER PRIMARY KEY, room TEXT NOT NULL, ppm TEXT NOT NULL,
  at_ms INTEGER NOT NULL, instrument TEXT NOT NULL, by TEXT NOT NULL) STRICT;
CREATE INDEX IF NOT EXISTS s_air_room ON s_air(room, at_ms);
CREATE TABLE IF NOT EXISTS s_alarm(room TEXT PRIMARY KEY, ppm TEXT NOT NULL, at_ms INTEGER NOT NULL,
  entry INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_cylinder(serial TEXT PRIMARY KEY, made TEXT NOT NULL,
  stamps TEXT NOT NULL, gas_kg TEXT NOT NULL, state TEXT NOT NULL, entry INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_eyewash(one INTEGER PRIMARY KEY CHECK (one = 1),
  at_ms INTEGER NOT NULL, by TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_unlisted(entry INTEGER PRIMARY KEY, machine TEXT NOT NULL,
  state TEXT NOT NULL, at_ms INTEGER NOT NULL) STRICT;
)sql";
constexpr std::array kTableNames{"s_room", "s_door",  "s_tailpipe",
                                 "s_air",  "s_alarm", "s_cylinder",
                                 "s_unlisted", "s_eyewash"};

Result<void> room_set(const Folding& f) {
    return f.db
        .query("INSERT INTO s_room VALUES(?,?,?) ON CONFLICT(id) DO UPDATE SET "
               "closed=excluded.closed, entry=excluded.entry")
        .bind(f.text("room")).bind(std::int64_t{f.flag("closed")}).bind(f.entry.n)
        .run();
}

Result<void> door_set(const Folding& f) {
    return f.db
        .query("INSERT INTO s_door VALUES(?,?,?,?,?) ON CONFLICT(room, door) DO UPDATE SET "
               "open=excluded.open, at_ms=excluded.at_ms, entry=excluded.entry")
        .bind(f.text("room")).bind(f.text("door")).bind(std::int64_t{f.flag("open")})
        .bind(f.entry.at_ms).bind(f.entry.n)
        .run();
}

Result<void> tailpipe_tested(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_tailpipe VALUES(?,?,?,?)")
        .bind(f.text("machine")).bind(f.text("co_lmin")).bind(f.text("on")).bind(f.entry.n)
        .run();
}

Result<void> air_read(const Folding& f) {
    return f.db.query("INSERT INTO s_air VALUES(?,?,?,?,?,?)")
        .bind(f.entry.n).bind(f.text("room")).bind(f.text("ppm"))
        .bind(f.entry.data.value("read_ms", f.entry.at_ms)).bind(f.text("instrument"))
        .bind(f.signer())
        .run();
}

Result<void> air_alarm_raised(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_alarm VALUES(?,?,?,?)")
        .bind(f.text("room")).bind(f.text("ppm")).bind(f.entry.at_ms).bind(f.entry.n)
        .run();
}

Result<void> air_alarm_lifted(const Folding& f) {
    return f.db.query("DELETE FROM s_alarm WHERE room=?").bind(f.text("room")).run();
}

Result<void> eyewash_run(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_eyewash VALUES(1,?,?)")
        .bind(f.entry.at_ms).bind(f.signer()).run();
}

Result<void> cylinder_unlisted(const Folding& f) {
    return f.db.query("INSERT INTO s_unlisted VALUES(?,?,?,?)")
        .bind(f.entry.n).bind(f.text("machine")).bind(f.text("state")).bind(f.entry.at_ms).run();
}

Result<void> no_longer_unlisted(const Folding& f) {
    return f.db.query("DELETE FROM s_unlisted WHERE entry=?").bind(f.entry.about).run();
}

Result<void> cylinder_received(const Folding& f) {
    TRY(no_longer_unlisted(f));
    const std::string state = f.text("state");
    return f.db.query("INSERT OR REPLACE INTO s_cylinder VALUES(?,?,?,?,?,?)")
        .bind(f.text("serial")).bind(f.text("made")).bind(f.list("stamps")).bind(f.text("gas_kg"))
        .bind(state.empty() ? "full" : state).bind(f.entry.n)
        .run();
}

Result<void> cylinder_set(const Folding& f) {
    return f.db.query("UPDATE s_cylinder SET state=? WHERE serial=?")
        .bind(f.text("state")).bind(f.text("serial")).run();
}

Result<void> cylinder_given_back(const Folding& f) {
    TRY(no_longer_unlisted(f));
    return f.db.query("DELETE FROM s_cylinder WHERE serial=?").bind(f.text("serial")).run();
}

constexpr std::array kKinds{
    FoldKind{"room-set", room_set},
    FoldKind{"door-set", door_set},
    FoldKind{"tailpipe-tested", tailpipe_tested},
    FoldKind{"air-read", air_read},
    FoldKind{"air-alarm-raised", air_alarm_raised},
    FoldKind{"air-alarm-lifted", air_alarm_lifted},
    FoldKind{"eyewash-run", eyewash_run},
    FoldKind{"cylinder-unlisted", cylinder_unlisted},
    FoldKind{"cylinder-received", cylinder_received},
    FoldKind{"cylinder-set", cylinder_set},
    FoldKind{"cylinder-given-back", cylinder_given_back},
};

}  // namespace

const FoldGroup kAirFolds{kTables, kTableNames, kKinds};

}  // namespace holdpin
