#include "store/tables.hpp"

namespace holdpin {
namespace {

Draft draft_of(const Query& row) { return {row.text(0), row.text(1), row.integer(2)}; }

}  // namespace

Result<void> keep_draft(Database& db, const Draft& draft) {
    return db
        .query(
            "INSERT INTO draft (key, body, at_ms) VALUES (?, ?, ?) ON CONFLICT (key) "
            "DO UPDATE SET body = excluded.body, at_ms = excluded.at_ms")
        .bind(draft.key)
        .bind(draft.body)
        .bind(draft.at_ms)
        .run();
}

Result<std::optional<Draft>> find_draft(Database& db, std::string_view key) {
    auto query = db.query("SELECT key, body, at_ms FROM draft WHERE key = ?");
    query.bind(key);
    std::optional<Draft> found;
    if (TRY(query.next())) found = draft_of(query);
    return found;
}

Result<std::vector<Draft>> drafts_under(Database& db, std::string_view prefix) {
    // Not LIKE: a key may hold its wildcards, and it does not tell upper from lower case.
    auto query = db.query(
        "SELECT key, body, at_ms FROM draft WHERE substr(key, 1, length(?1)) = ?1 ORDER BY key");
    query.bind(prefix);
    std::vector<Draft> found;
    while (TRY(query.next())) found.push_back(draft_of(query));
    return found;
}

Result<void> drop_draft(Database& db, std::string_view key) {
    return db.query("DELETE FROM draft WHERE key = ?").bind(key).run();
}

}  // namespace holdpin
