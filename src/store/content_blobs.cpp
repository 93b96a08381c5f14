#include "store/tables.hpp"

namespace holdpin {

Result<void> keep_content(Database& db, std::string_view digest_hex, std::string_view canonical) {
    const auto kept = TRY(content_of(db, digest_hex));
    if (kept && *kept == canonical) return {};
    if (kept) {
        return Error{ErrorKind::damaged, "other content is kept under the same digest",
                     std::string(digest_hex), ""};
    }
    const Bytes digest = TRY(unhex(digest_hex));
    return db.query("INSERT INTO content_blob (digest, canonical) VALUES (?, ?)")
        .bind(digest)
        .bind(Bytes(canonical.begin(), canonical.end()))
        .run();
}

Result<std::optional<std::string>> content_of(Database& db, std::string_view digest_hex) {
    const Bytes digest = TRY(unhex(digest_hex));
    auto query = db.query("SELECT canonical FROM content_blob WHERE digest = ?");
    query.bind(digest);
    std::optional<std::string> found;
    if (TRY(query.next())) {
        const Bytes bytes = query.blob(0);
        found = std::string(bytes.begin(), bytes.end());
    }
    return found;
}

Result<void> set_fact(Database& db, std::string_view name, std::string_view value) {
    return db
        .query(
            "INSERT INTO fact (name, value) VALUES (?, ?) "
            "ON CONFLICT (name) DO UPDATE SET value = excluded.value")
        .bind(name)
        .bind(value)
        .run();
}

Result<std::optional<std::string>> fact(Database& db, std::string_view name) {
    auto query = db.query("SELECT value FROM fact WHERE name = ?");
    query.bind(name);
    std::optional<std::string> found;
    if (TRY(query.next())) found = query.text(0);
    return found;
}

}  // namespace holdpin
