#include <algorithm>

#include "base/sha256.hpp"
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
        std::string text(bytes.begin(), bytes.end());
        if (!std::ranges::equal(sha256(text), digest)) {
            return Error{ErrorKind::damaged, "the content kept under this digest is other content",
                         std::string(digest_hex), "go back to a backup that was checked"};
        }
        found = std::move(text);
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
