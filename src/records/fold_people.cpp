// What entries change about people: who they are, what they have learned, what they may run.
#include "records/fold_groups.hpp"

#include <fmt/format.h>

#include <array>

namespace holdpin {
namespace {

constexpr const char* kTables = R"sql(
CREATE TABLE IF NOT EXISTS s_person(id TEXT PRIMARY KEY, name_hash TEXT NOT NULL,
  badge TEXT NOT NULL, language TEXT NOT NULL, duties TEXT NOT NULL, endorsements TEXT NOT NULL,
  extension TEXT NOT NULL, competence TEXT NOT NULL, listed_until TEXT NOT NULL,
  entry INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_topic(person TEXT NOT NULL, topic TEXT NOT NULL,
  instructed TEXT NOT NULL, practised TEXT NOT NULL, evaluated TEXT NOT NULL,
  refresher INTEGER NOT NULL, PRIMARY KEY(person, topic)) STRICT;
CREATE TABLE IF NOT EXISTS s_authorisation(person TEXT NOT NULL, class TEXT NOT NULL,
  entry INTEGER NOT NULL, rooms TEXT NOT NULL, shifts TEXT NOT NULL,
  PRIMARY KEY(person, class)) STRICT;
CREATE TABLE IF NOT EXISTS s_lost_badge(badge TEXT PRIMARY KEY, entry INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_refusal(entry INTEGER PRIMARY KEY, at_ms INTEGER NOT NULL,
  person TEXT NOT NULL, failures INTEGER NOT NULL) STRICT;
CREATE INDEX IF NOT EXISTS s_refusal_at ON s_refusal(at_ms);
)sql";
constexpr std::array kTableNames{"s_person", "s_topic", "s_authorisation", "s_lost_badge",
                                 "s_refusal"};

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

Result<void> refused(const Folding& f) {
    return f.db.query("INSERT INTO s_refusal VALUES(?,?,?,?)")
        .bind(f.entry.n).bind(f.entry.at_ms).bind(f.text("person")).bind(f.integer("failures"))
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

// The badge is free again, no duty is left; the id stays, and is given to nobody else.
Result<void> person_left(const Folding& f) {
    TRY(f.db.query("DELETE FROM s_authorisation WHERE person=?").bind(f.text("person")).run());
    return f.db
        .query("UPDATE s_person SET badge='', duties='[]', endorsements='[]', extension='', "
               "listed_until='' WHERE id=?")
        .bind(f.text("person"))
        .run();
}

Result<void> set_badge(const Folding& f, const std::string& badge) {
    return f.db.query("UPDATE s_person SET badge=? WHERE id=?")
        .bind(badge).bind(f.text("person"))
        .run();
}

// Whoever finds it gets in as nobody.
Result<void> badge_lost(const Folding& f) {
    TRY(f.db.query("INSERT OR IGNORE INTO s_lost_badge VALUES(?,?)")
            .bind(f.text("badge")).bind(f.entry.n)
            .run());
    return set_badge(f, "");
}

Result<void> badge_given(const Folding& f) { return set_badge(f, f.text("badge")); }

constexpr std::array kKinds{
    FoldKind{"person-enrolled", person_enrolled},
    FoldKind{"sign-on-refused", refused},
    FoldKind{"sign-refused", refused},
    FoldKind{"badge-lost", badge_lost},
    FoldKind{"badge-given", badge_given},
    FoldKind{"person-left", person_left},
    FoldKind{"person-erased", person_left},
    FoldKind{"quiz-finished", quiz_finished},
    FoldKind{"instructed", instructed},
    FoldKind{"practised", practised},
    FoldKind{"evaluated", evaluated},
    FoldKind{"refresher-opened", refresher_opened},
    FoldKind{"authorised", authorised},
    FoldKind{"authorisation-withdrawn", authorisation_withdrawn},
};

}  // namespace

const FoldGroup kPeopleFolds{kTables, kTableNames, kKinds};

}  // namespace holdpin
