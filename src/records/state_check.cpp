#include "records/state_check.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "records/fold.hpp"
#include "store/tables.hpp"

namespace holdpin {
namespace {

constexpr std::string_view kDoubt = "state-doubt";

Result<void> fold_all(Database& db) {
    EntryZones zones;
    Query rows = db.query("SELECT n, body FROM entry ORDER BY n");
    while (TRY(rows.next())) {
        const auto body = rows.blob_view(1);
        if (body.empty()) continue;
        const Entry entry = TRY(entry_of_trusted(
            {reinterpret_cast<const char*>(body.data()), body.size()}));
        TRY(fold(db, entry, *TRY(zones.of(entry))));
    }
    return {};
}

// What a table, its indexes and its triggers are made of, without blanks: they differ between
// versions of this program where the meaning does not.
Result<std::string> schema_of(Database& db, std::string_view schema, const std::string& table) {
    Query query = db.query(fmt::format(
        "SELECT type, name, sql FROM {}.sqlite_schema WHERE tbl_name = ? ORDER BY type, name",
        schema));
    query.bind(table);
    std::string all;
    while (TRY(query.next())) {
        for (const int column : {0, 1, 2}) {
            for (const char c : query.text(column)) {
                if (c != ' ' && c != '\n') all += c;
            }
            all += '\n';
        }
    }
    return all;
}

Query rows_of(Database& db, std::string_view schema, const std::string& table) {
    return db.query(fmt::format("SELECT * FROM {}.{} ORDER BY 1, 2", schema, table));
}

Result<int> columns_of(Database& db, const std::string& table) {
    Query query = db.query("SELECT count(*) FROM pragma_table_info(?, 'temp')");
    query.bind(table);
    TRY(query.next());
    return static_cast<int>(query.integer(0));
}

Result<bool> same_rows(Database& db, const std::string& table) {
    const int columns = TRY(columns_of(db, table));
    Query kept = rows_of(db, "main", table);
    Query folded = rows_of(db, "temp", table);
    while (true) {
        const bool more = TRY(kept.next());
        if (TRY(folded.next()) != more) return false;
        if (!more) return true;
        for (int i = 0; i < columns; ++i) {
            if (kept.text(i) != folded.text(i) || kept.is_blob(i) != folded.is_blob(i)) {
                return false;
            }
        }
    }
}

// A table that an earlier version did not have, and that no entry has filled, is no difference.
Result<bool> agrees(Database& db, const std::string& table) {
    const std::string kept = TRY(schema_of(db, "main", table));
    if (kept.empty()) {
        Query folded = rows_of(db, "temp", table);
        return !TRY(folded.next());
    }
    if (kept != TRY(schema_of(db, "temp", table))) return false;
    return same_rows(db, table);
}

Result<std::vector<std::string>> compared(Database& db) {
    TRY(make_temporary_state_tables(db));
    TRY(fold_all(db));
    std::vector<std::string> differing;
    for (std::string& table : state_tables()) {
        if (!TRY(agrees(db, table))) differing.push_back(std::move(table));
    }
    return differing;
}

}  // namespace

Result<std::vector<std::string>> state_differences(Database& db) {
    // What a program of another version folded is folded again at the next start.
    if (!TRY(is_folded_by_this(db))) return std::vector<std::string>();
    TRY(db.execute("BEGIN"));
    auto differing = compared(db);
    // The temporary tables would stand in front of the true ones; undone, they never were. After
    // some failures SQLite has undone everything by itself.
    const auto undone = db.execute("ROLLBACK");
    if (differing && !undone) return undone.error();
    return differing;
}

Result<void> note_state_doubt(Database& db, const std::string& what) {
    return set_fact(db, kDoubt, what);
}

Result<std::string> noted_state_doubt(Database& db) {
    return TRY(fact(db, kDoubt)).value_or("");
}

std::string state_doubt(const std::vector<std::string>& tables) {
    if (tables.empty()) return {};
    return "it is not what the entries say, in " + joined(tables, ", ");
}

}  // namespace holdpin
