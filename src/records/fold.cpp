#include "records/fold.hpp"

#include <fmt/format.h>

#include <array>

#include "base/sha256.hpp"

namespace holdpin {
namespace {

using Json = nlohmann::json;

constexpr const char* kTables = R"sql(
CREATE TABLE IF NOT EXISTS s_person(id TEXT PRIMARY KEY, name_hash TEXT NOT NULL,
  badge TEXT NOT NULL, language TEXT NOT NULL, duties TEXT NOT NULL, endorsements TEXT NOT NULL,
  extension TEXT NOT NULL, competence TEXT NOT NULL, listed_until TEXT NOT NULL,
  entry INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_machine(plate TEXT PRIMARY KEY, class TEXT NOT NULL,
  room TEXT NOT NULL, hours INTEGER NOT NULL, fuel INTEGER NOT NULL, service_every INTEGER NOT NULL,
  service_done INTEGER NOT NULL, inspection_due TEXT NOT NULL, as_truck INTEGER NOT NULL,
  returned_ms INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_topic(person TEXT NOT NULL, topic TEXT NOT NULL,
  instructed TEXT NOT NULL, practised TEXT NOT NULL, evaluated TEXT NOT NULL,
  refresher INTEGER NOT NULL, PRIMARY KEY(person, topic)) STRICT;
CREATE TABLE IF NOT EXISTS s_authorisation(person TEXT NOT NULL, class TEXT NOT NULL,
  entry INTEGER NOT NULL, rooms TEXT NOT NULL, shifts TEXT NOT NULL,
  PRIMARY KEY(person, class)) STRICT;
CREATE TABLE IF NOT EXISTS s_finding(entry INTEGER PRIMARY KEY, machine TEXT NOT NULL,
  point TEXT NOT NULL, reading TEXT NOT NULL, outcome TEXT NOT NULL, hazard TEXT NOT NULL,
  at_ms INTEGER NOT NULL, by TEXT NOT NULL, source TEXT NOT NULL, open INTEGER NOT NULL,
  allowed INTEGER NOT NULL, allowed_until INTEGER NOT NULL, repaired INTEGER NOT NULL,
  rechecked INTEGER NOT NULL, text_hash TEXT NOT NULL, told INTEGER NOT NULL) STRICT;
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
CREATE TABLE IF NOT EXISTS s_folded(one INTEGER PRIMARY KEY CHECK (one = 1),
  entry INTEGER NOT NULL, at_ms INTEGER NOT NULL, doubt INTEGER NOT NULL) STRICT;
)sql";

constexpr std::array kTableNames{"s_person",  "s_machine", "s_topic",    "s_authorisation",
                                 "s_finding", "s_round",   "s_release",  "s_override",
                                 "s_lock",    "s_room",    "s_door",     "s_tailpipe",
                                 "s_air",     "s_alarm",   "s_cylinder",
                                 "s_folded"};

// One entry being folded, with short ways to its data.
struct Folding {
    Database& db;
    const Entry& entry;
    const Zone& zone;

    std::string text(const char* key) const { return entry.data.value(key, std::string()); }
    std::int64_t integer(const char* key) const { return entry.data.value(key, std::int64_t{0}); }
    bool flag(const char* key) const { return entry.data.value(key, false); }
    std::string list(const char* key) const {
        const auto at = entry.data.find(key);
        return at == entry.data.end() ? "[]" : at->dump();
    }
    std::vector<std::string> strings(const char* key) const {
        return entry.data.value(key, std::vector<std::string>());
    }
    std::int64_t tenths(const char* key) const { return parse_tenths(text(key)).value_or(0); }
    std::string signer() const { return entry.by.empty() ? "" : entry.by.front(); }
    std::string date() const { return iso_date(zone.local(entry.at_ms).date); }
};

Result<void> person_enrolled(const Folding& f) {
    return f.db
        .query("INSERT INTO s_person VALUES(?,?,?,?,?,?,?,?,?,?) ON CONFLICT(id) DO UPDATE SET "
               "name_hash=excluded.name_hash, badge=excluded.badge, language=excluded.language, "
               "duties=excluded.duties, endorsements=excluded.endorsements, "
               "extension=excluded.extension, competence=excluded.competence, "
               "listed_until=excluded.listed_until, entry=excluded.entry")
        .bind(f.text("person")).bind(f.text("name")).bind(f.text("badge")).bind(f.text("language"))
        .bind(f.list("duties")).bind(f.list("endorsements")).bind(f.text("extension"))
        .bind(f.text("competence")).bind(f.text("listed_until")).bind(f.entry.n)
        .run();
}

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

Result<void> room_set(const Folding& f) {
    return f.db
        .query("INSERT INTO s_room VALUES(?,?,?) ON CONFLICT(id) DO UPDATE SET "
               "closed=excluded.closed, entry=excluded.entry")
        .bind(f.text("room")).bind(std::int64_t{f.flag("closed")}).bind(f.entry.n)
        .run();
}

// Sets one date of one topic; `column` is one of the three names below, never from an entry.
Result<void> set_topic_date(const Folding& f, const std::string& topic, std::string_view column,
                            const std::string& date) {
    constexpr std::string_view kInsert =
        "INSERT INTO s_topic VALUES(?,?,'','','',0) ON CONFLICT(person, topic) DO NOTHING";
    TRY(f.db.query(kInsert).bind(f.text("person")).bind(topic).run());
    return f.db
        .query(fmt::format("UPDATE s_topic SET {}=? WHERE person=? AND topic=?", column))
        .bind(date).bind(f.text("person")).bind(topic)
        .run();
}

Result<void> set_topics(const Folding& f, std::string_view column) {
    const std::string given = f.text("on");
    for (const auto& topic : f.strings("topics")) {
        TRY(set_topic_date(f, topic, column, given.empty() ? f.date() : given));
    }
    return {};
}

Result<void> quiz_finished(const Folding& f) {
    return f.flag("passed") ? set_topics(f, "instructed") : Result<void>{};
}
Result<void> instructed(const Folding& f) { return set_topics(f, "instructed"); }
Result<void> practised(const Folding& f) { return set_topics(f, "practised"); }

Result<void> set_refresher(const Folding& f, bool open) {
    for (const auto& topic : f.strings("topics")) {
        TRY(f.db.query("UPDATE s_topic SET refresher=? WHERE person=? AND topic=?")
                .bind(std::int64_t{open}).bind(f.text("person")).bind(topic)
                .run());
    }
    return {};
}

Result<void> evaluated(const Folding& f) {
    if (!f.flag("passed")) return set_refresher(f, true);
    TRY(set_topics(f, "evaluated"));
    return set_refresher(f, false);
}
Result<void> refresher_opened(const Folding& f) { return set_refresher(f, true); }

Result<void> authorised(const Folding& f) {
    return f.db
        .query("INSERT INTO s_authorisation VALUES(?,?,?,?,?) ON CONFLICT(person, class) DO UPDATE "
               "SET entry=excluded.entry, rooms=excluded.rooms, shifts=excluded.shifts")
        .bind(f.text("person")).bind(f.text("class")).bind(f.entry.n).bind(f.list("rooms"))
        .bind(f.list("shifts"))
        .run();
}

Result<void> authorisation_withdrawn(const Folding& f) {
    return f.db.query("DELETE FROM s_authorisation WHERE person=? AND class=?")
        .bind(f.text("person")).bind(f.text("class"))
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
    TRY(f.db.query("UPDATE s_round SET voided=1 WHERE machine=? AND kind='before' AND person<>?")
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
    return f.db.query("UPDATE s_round SET voided=1 WHERE machine=?").bind(f.text("machine")).run();
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
Result<void> cylinder_received(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_cylinder VALUES(?,?,?,?,'full',?)")
        .bind(f.text("serial")).bind(f.text("made")).bind(f.list("stamps")).bind(f.text("gas_kg"))
        .bind(f.entry.n)
        .run();
}
Result<void> cylinder_set(const Folding& f) {
    return f.db.query("UPDATE s_cylinder SET state=? WHERE serial=?")
        .bind(f.text("state")).bind(f.text("serial")).run();
}
Result<void> cylinder_given_back(const Folding& f) {
    return f.db.query("DELETE FROM s_cylinder WHERE serial=?").bind(f.text("serial")).run();
}
Result<void> clock_doubted(const Folding& f) {
    return f.db.query("UPDATE s_folded SET doubt=?").bind(f.entry.n).run();
}
Result<void> clock_confirmed(const Folding& f) {
    return f.db.query("UPDATE s_folded SET doubt=0").run();
}

struct Kind {
    std::string_view name;
    Result<void> (*apply)(const Folding&);
};
constexpr std::array kKinds{
    Kind{"person-enrolled", person_enrolled},
    Kind{"machine-enrolled", machine_enrolled},
    Kind{"room-set", room_set},
    Kind{"quiz-finished", quiz_finished},
    Kind{"instructed", instructed},
    Kind{"practised", practised},
    Kind{"evaluated", evaluated},
    Kind{"refresher-opened", refresher_opened},
    Kind{"authorised", authorised},
    Kind{"authorisation-withdrawn", authorisation_withdrawn},
    Kind{"finding-entered", finding_entered},
    Kind{"finding-described", finding_described},
    Kind{"finding-withdrawn", finding_withdrawn},
    Kind{"limit-decided", limit_decided},
    Kind{"repair-stated", repair_stated},
    Kind{"recheck-done", recheck_done},
    Kind{"returned-to-service", returned_to_service},
    Kind{"outcome-told", outcome_told},
    Kind{"round-signed", round_signed_with_values},
    Kind{"release-given", release_given},
    Kind{"returned", returned},
    Kind{"service-done", service_done},
    Kind{"inspection-done", inspection_done},
    Kind{"override-placed", override_placed},
    Kind{"lockout-placed", lockout_placed},
    Kind{"lockout-removed", lockout_removed},
    Kind{"door-set", door_set},
    Kind{"tailpipe-tested", tailpipe_tested},
    Kind{"air-read", air_read},
    Kind{"air-alarm-raised", air_alarm_raised},
    Kind{"air-alarm-lifted", air_alarm_lifted},
    Kind{"cylinder-received", cylinder_received},
    Kind{"cylinder-set", cylinder_set},
    Kind{"cylinder-given-back", cylinder_given_back},
    Kind{"clock-doubted", clock_doubted},
    Kind{"clock-confirmed", clock_confirmed},
};

}  // namespace

Result<void> make_state_tables(Database& db) {
    TRY(db.execute(kTables));
    return db.query("INSERT OR IGNORE INTO s_folded VALUES(1,0,0,0)").run();
}

Result<void> drop_state_tables(Database& db) {
    for (const char* table : kTableNames) {
        TRY(db.execute(fmt::format("DROP TABLE IF EXISTS {}", table).c_str()));
    }
    return {};
}

Result<void> fold(Database& db, const Entry& entry, const Zone& zone) {
    const Folding folding{db, entry, zone};
    for (const Kind& kind : kKinds) {
        if (kind.name == entry.kind) TRY(kind.apply(folding));
    }
    return db.query("UPDATE s_folded SET entry=?, at_ms=?")
        .bind(entry.n).bind(entry.at_ms).run();
}

Result<std::int64_t> folded_up_to(Database& db) {
    Query query = db.query("SELECT entry FROM s_folded");
    return TRY(query.next()) ? query.integer(0) : 0;
}

Result<std::string> state_digest(Database& db) {
    std::string all;
    for (const char* table : kTableNames) {
        Query columns =
            db.query(fmt::format("SELECT count(*) FROM pragma_table_info('{}')", table));
        TRY(columns.next());
        const int count = static_cast<int>(columns.integer(0));
        Query rows = db.query(fmt::format("SELECT * FROM {} ORDER BY 1, 2", table));
        while (TRY(rows.next())) {
            all += table;
            for (int i = 0; i < count; ++i) all += '\x1f' + rows.text(i);
            all += '\n';
        }
    }
    return hex(sha256(all));
}

}  // namespace holdpin
