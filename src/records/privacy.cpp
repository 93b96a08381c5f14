#include "records/privacy.hpp"

#include <algorithm>

namespace holdpin {
namespace {

bool stands_in(const nlohmann::json& json, std::string_view id) {
    if (json.is_string()) return json.get_ref<const std::string&>() == id;
    if (!json.is_structured()) return false;
    return std::any_of(json.begin(), json.end(),
                       [&](const nlohmann::json& one) { return stands_in(one, id); });
}

Result<std::vector<Disagreement>> disagreements(Query query) {
    std::vector<Disagreement> found;
    while (TRY(query.next())) {
        found.push_back({query.integer(0), query.integer(1), query.text(2), query.integer(3),
                         query.text(4)});
    }
    return found;
}

}  // namespace

Result<std::string> accepted_statement(Database& db, std::string_view person,
                                       std::string_view language) {
    Query query = db.query("SELECT digest FROM s_statement WHERE person=? AND language=?");
    query.bind(person).bind(language);
    return TRY(query.next()) ? query.text(0) : std::string();
}

Result<std::int64_t> ledger_doubt(Database& db) {
    Query query = db.query("SELECT max(entry) FROM s_ledger_doubt");
    return TRY(query.next()) ? query.integer(0) : 0;
}

Result<std::optional<Gone>> gone(Database& db, std::string_view person) {
    Query query = db.query("SELECT left_ms, erased FROM s_gone WHERE person=?");
    query.bind(person);
    if (!TRY(query.next())) return std::optional<Gone>();
    return std::optional(Gone{query.integer(0), query.integer(1) != 0});
}

Result<std::vector<Disagreement>> disagreements_about(Database& db, std::int64_t entry) {
    Query query = db.query(
        "SELECT entry, about, person, at_ms, text_hash FROM s_disagreement WHERE about=? "
        "ORDER BY entry");
    query.bind(entry);
    return disagreements(std::move(query));
}

Result<std::optional<Entry>> disputed_entry(Database& db, std::int64_t about) {
    Query query = db.query("SELECT body FROM entry WHERE n=?");
    query.bind(about);
    const std::string body = TRY(query.next()) ? query.text(0) : "";
    if (body.empty()) return std::optional<Entry>();
    return std::optional(TRY(entry_of_trusted(body)));
}

Result<std::vector<Disagreement>> disagreements_of(Database& db, std::string_view person) {
    Query query = db.query(
        "SELECT entry, about, person, at_ms, text_hash FROM s_disagreement WHERE person=? "
        "ORDER BY entry");
    query.bind(person);
    return disagreements(std::move(query));
}

bool LegalHold::covers(const Entry& one) const { return scope == "all" || names(one, id); }

Result<std::vector<LegalHold>> legal_holds(Database& db) {
    Query query = db.query(
        "SELECT entry, scope, id, at_ms, text_hash FROM s_legal_hold WHERE lifted=0 "
        "ORDER BY entry");
    std::vector<LegalHold> holds;
    while (TRY(query.next())) {
        holds.push_back({query.integer(0), query.text(1), query.text(2), query.integer(3),
                         query.text(4)});
    }
    return holds;
}

bool names(const Entry& entry, std::string_view id) {
    return std::find(entry.by.begin(), entry.by.end(), id) != entry.by.end() ||
           stands_in(entry.data, id);
}

// The bytes are searched first: most entries name somebody else and need not be read.
Result<std::vector<Entry>> entries_naming(Database& db, std::string_view person) {
    const std::string quoted = '"' + std::string(person) + '"';
    Query query = db.query("SELECT body FROM entry WHERE instr(body, ?) > 0 ORDER BY n");
    query.bind(Bytes(quoted.begin(), quoted.end()));
    std::vector<Entry> entries;
    while (TRY(query.next())) {
        const Bytes body = query.blob(0);
        Entry entry = TRY(entry_from(std::string(body.begin(), body.end())));
        if (names(entry, person)) entries.push_back(std::move(entry));
    }
    return entries;
}

Result<bool> badge_was_lost(Database& db, std::string_view badge) {
    Query query = db.query("SELECT 1 FROM s_lost_badge WHERE badge=?");
    query.bind(badge);
    return query.next();
}

Result<bool> ever_had_pin(Database& db, std::string_view person) {
    for (const Entry& entry : TRY(entries_naming(db, person))) {
        const bool tells = entry.kind == "pin-issued" || entry.kind == "person-left";
        if (tells && entry.data.value("person", "") == person) return true;
    }
    return false;
}

Result<std::vector<SignInRefusal>> refusals_since(Database& db, std::int64_t since_ms, int most) {
    Query query = db.query(
        "SELECT at_ms, person, failures FROM s_refusal WHERE at_ms>=? "
        "ORDER BY at_ms DESC, entry DESC LIMIT ?");
    query.bind(since_ms).bind(std::int64_t{most});
    std::vector<SignInRefusal> all;
    while (TRY(query.next())) {
        all.push_back({query.integer(0), query.text(1), query.integer(2)});
    }
    return all;
}

Result<std::int64_t> refusal_count_since(Database& db, std::int64_t since_ms) {
    Query query = db.query("SELECT count(*) FROM s_refusal WHERE at_ms>=?");
    query.bind(since_ms);
    TRY(query.next());
    return query.integer(0);
}

}  // namespace holdpin
