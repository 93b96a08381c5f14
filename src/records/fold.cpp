#include "records/fold.hpp"

#include <fmt/format.h>

#include <array>

#include "base/sha256.hpp"
#include "records/fold_groups.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kFoldingFact = "folding";

constexpr const char* kTables = R"sql(
CREATE TABLE IF NOT EXISTS s_folded(one INTEGER PRIMARY KEY CHECK (one = 1),
  entry INTEGER NOT NULL, at_ms INTEGER NOT NULL, doubt INTEGER NOT NULL) STRICT;
)sql";
constexpr std::array kTableNames{"s_folded"};

Result<void> clock_doubted(const Folding& f) {
    return f.db.query("UPDATE s_folded SET doubt=?").bind(f.entry.n).run();
}
Result<void> clock_confirmed(const Folding& f) {
    return f.db.query("UPDATE s_folded SET doubt=0").run();
}
constexpr std::array kKinds{
    FoldKind{"clock-doubted", clock_doubted},
    FoldKind{"clock-confirmed", clock_confirmed},
};
const FoldGroup kClockFolds{kTables, kTableNames, kKinds};

constexpr const char* kContentTables = R"sql(
CREATE TABLE IF NOT EXISTS s_unasked_change(one INTEGER PRIMARY KEY CHECK (one = 1),
  entry INTEGER NOT NULL) STRICT;
)sql";
constexpr std::array kContentTableNames{"s_unasked_change"};

Result<void> content_adopted(const Folding& f) {
    if (!f.entry.data.value("unasked", false)) return {};
    return f.db.query("INSERT OR REPLACE INTO s_unasked_change VALUES(1,?)").bind(f.entry.n).run();
}
// A change that came after the one that was looked at stays.
Result<void> content_accepted(const Folding& f) {
    return f.db.query("DELETE FROM s_unasked_change WHERE entry<=?").bind(f.entry.about).run();
}
constexpr std::array kContentKinds{
    FoldKind{"content-adopted", content_adopted},
    FoldKind{"content-accepted", content_accepted},
};
const FoldGroup kContentFolds{kContentTables, kContentTableNames, kContentKinds};

constexpr std::array kGroups{&kPeopleFolds, &kMachinesFolds, &kLockoutFolds, &kAirFolds,
                             &kAlarmFolds,  &kWorksFolds,    &kPrivacyFolds, &kClockFolds,
                             &kContentFolds};

// Every row of one table, in the order of its key.
Result<std::string> rows_of(Database& db, const char* table) {
    Query columns = db.query(fmt::format("SELECT count(*) FROM pragma_table_info('{}')", table));
    TRY(columns.next());
    const int count = static_cast<int>(columns.integer(0));
    std::string all;
    Query rows = db.query(fmt::format("SELECT * FROM {} ORDER BY 1, 2", table));
    while (TRY(rows.next())) {
        all += table;
        for (int i = 0; i < count; ++i) all += '\x1f' + rows.text(i);
        all += '\n';
    }
    return all;
}

}  // namespace

std::string folding_mark() {
    std::string all = std::to_string(kFoldingVersion);
    for (const FoldGroup* group : kGroups) all += group->tables;
    return hex(sha256(all));
}

Result<bool> is_folded_by_this(Database& db) {
    return TRY(fact(db, kFoldingFact)) == folding_mark();
}

Result<void> mark_as_folded_by_this(Database& db) {
    return set_fact(db, kFoldingFact, folding_mark());
}

Result<void> make_state_tables(Database& db) {
    for (const FoldGroup* group : kGroups) TRY(db.execute(group->tables));
    return db.query("INSERT OR IGNORE INTO s_folded VALUES(1,0,0,0)").run();
}

Result<void> make_temporary_state_tables(Database& db) {
    constexpr std::string_view kCreate = "CREATE TABLE IF NOT EXISTS";
    for (const FoldGroup* group : kGroups) {
        std::string sql = group->tables;
        for (auto at = sql.find(kCreate); at != sql.npos; at = sql.find(kCreate, at)) {
            sql.replace(at, kCreate.size(), "CREATE TEMP TABLE");
        }
        TRY(db.execute(sql.c_str()));
    }
    return db.query("INSERT INTO temp.s_folded VALUES(1,0,0,0)").run();
}

Result<const Zone*> EntryZones::of(const Entry& entry) {
    if (!zone_ || zone_->name() != entry.zone) zone_ = TRY(Zone::load(entry.zone));
    return &*zone_;
}

std::vector<std::string> state_tables() {
    std::vector<std::string> names;
    for (const FoldGroup* group : kGroups) {
        names.insert(names.end(), group->table_names.begin(), group->table_names.end());
    }
    return names;
}

Result<void> drop_state_tables(Database& db) {
    for (const FoldGroup* group : kGroups) {
        for (const char* table : group->table_names) {
            TRY(db.execute(fmt::format("DROP TABLE IF EXISTS {}", table).c_str()));
        }
    }
    return {};
}

Result<void> fold(Database& db, const Entry& entry, const Zone& zone) {
    const Folding folding{db, entry, zone};
    for (const FoldGroup* group : kGroups) {
        for (const FoldKind& kind : group->kinds) {
            if (kind.name == entry.kind) TRY(kind.apply(folding));
        }
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
    for (const FoldGroup* group : kGroups) {
        for (const char* table : group->table_names) all += TRY(rows_of(db, table));
    }
    return hex(sha256(all));
}

}  // namespace holdpin
