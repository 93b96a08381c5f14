// What entries change about people's own side of the records: the signing statement, who has left
// or was erased, disagreements, what must be kept, and a doubt from the shift book.
#include "records/fold_groups.hpp"

#include <array>

namespace holdpin {
namespace {

constexpr const char* kTables = R"sql(
CREATE TABLE IF NOT EXISTS s_statement(person TEXT NOT NULL, language TEXT NOT NULL,
  digest TEXT NOT NULL, entry INTEGER NOT NULL, PRIMARY KEY(person, language)) STRICT;
CREATE TABLE IF NOT EXISTS s_gone(person TEXT PRIMARY KEY, left_ms INTEGER NOT NULL,
  erased INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_disagreement(entry INTEGER PRIMARY KEY, about INTEGER NOT NULL,
  person TEXT NOT NULL, at_ms INTEGER NOT NULL, text_hash TEXT NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_legal_hold(entry INTEGER PRIMARY KEY, scope TEXT NOT NULL,
  id TEXT NOT NULL, at_ms INTEGER NOT NULL, text_hash TEXT NOT NULL,
  lifted INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS s_ledger_doubt(entry INTEGER PRIMARY KEY,
  at_ms INTEGER NOT NULL) STRICT;
)sql";
constexpr std::array kTableNames{"s_statement", "s_gone", "s_disagreement", "s_legal_hold",
                                 "s_ledger_doubt"};

Result<void> statement_accepted(const Folding& f) {
    return f.db.query("INSERT OR REPLACE INTO s_statement VALUES(?,?,?,?)")
        .bind(f.text("person")).bind(f.text("language")).bind(f.text("statement")).bind(f.entry.n)
        .run();
}

// Whoever comes back is here again.
Result<void> person_enrolled(const Folding& f) {
    return f.db.query("DELETE FROM s_gone WHERE person=? AND erased=0")
        .bind(f.text("person")).run();
}

Result<void> person_gone(const Folding& f, std::int64_t erased) {
    return f.db
        .query("INSERT INTO s_gone VALUES(?,?,?) ON CONFLICT(person) DO UPDATE SET "
               "erased=max(erased, excluded.erased)")
        .bind(f.text("person")).bind(f.entry.at_ms).bind(erased)
        .run();
}
Result<void> person_left(const Folding& f) { return person_gone(f, 0); }
Result<void> person_erased(const Folding& f) { return person_gone(f, f.entry.n); }

Result<void> disagreement_noted(const Folding& f) {
    return f.db.query("INSERT INTO s_disagreement VALUES(?,?,?,?,?)")
        .bind(f.entry.n).bind(f.entry.about).bind(f.signer()).bind(f.entry.at_ms)
        .bind(f.text("text"))
        .run();
}

Result<void> legal_hold_placed(const Folding& f) {
    return f.db.query("INSERT INTO s_legal_hold VALUES(?,?,?,?,?,0)")
        .bind(f.entry.n).bind(f.text("scope")).bind(f.text("id")).bind(f.entry.at_ms)
        .bind(f.text("text"))
        .run();
}
Result<void> legal_hold_lifted(const Folding& f) {
    return f.db.query("UPDATE s_legal_hold SET lifted=? WHERE entry=?")
        .bind(f.entry.n).bind(f.entry.about).run();
}

Result<void> ledger_doubted(const Folding& f) {
    return f.db.query("INSERT INTO s_ledger_doubt VALUES(?,?)")
        .bind(f.entry.n).bind(f.entry.at_ms).run();
}
Result<void> ledger_doubt_lifted(const Folding& f) {
    return f.db.query("DELETE FROM s_ledger_doubt").run();
}

constexpr std::array kKinds{
    FoldKind{"signing-statement-accepted", statement_accepted},
    FoldKind{"person-enrolled", person_enrolled},
    FoldKind{"person-left", person_left},
    FoldKind{"person-erased", person_erased},
    FoldKind{"disagreement-noted", disagreement_noted},
    FoldKind{"legal-hold-placed", legal_hold_placed},
    FoldKind{"legal-hold-lifted", legal_hold_lifted},
    FoldKind{"ledger-doubted", ledger_doubted},
    FoldKind{"ledger-doubt-lifted", ledger_doubt_lifted},
};

}  // namespace

const FoldGroup kPrivacyFolds{kTables, kTableNames, kKinds};

}  // namespace holdpin
