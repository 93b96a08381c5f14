#include <sodium.h>

#include <array>

#include "store/tables.hpp"

namespace holdpin {
namespace {

using Digest = std::array<std::uint8_t, crypto_hash_sha256_BYTES>;
constexpr std::size_t kSaltSize = 16;

Digest salted_digest(std::span<const std::uint8_t> salt, std::string_view text) {
    Bytes joined(salt.begin(), salt.end());
    joined.insert(joined.end(), text.begin(), text.end());
    Digest digest{};
    crypto_hash_sha256(digest.data(), joined.data(), joined.size());
    return digest;
}

}  // namespace

Result<std::string> keep_private(Database& db, Random& random, std::string_view text,
                                 std::string_view about) {
    std::array<std::uint8_t, kSaltSize> salt{};
    random.fill(salt);
    const Digest digest = salted_digest(salt, text);
    TRY(db.query("INSERT INTO private_text (hash, salt, text, about) VALUES (?, ?, ?, ?)")
            .bind(digest)
            .bind(salt)
            .bind(text)
            .bind(about)
            .run());
    return hex(digest);
}

Result<std::optional<std::string>> private_text(Database& db, std::string_view hash_hex) {
    const Bytes digest = TRY(unhex(hash_hex));
    auto query = db.query("SELECT salt, text FROM private_text WHERE hash = ?");
    query.bind(digest);
    std::optional<std::string> found;
    if (!TRY(query.next())) return found;
    const std::string text = query.text(1);
    if (hex(salted_digest(query.blob(0), text)) == hex(digest)) found = text;
    return found;
}

Result<bool> has_private_text(Database& db, std::string_view hash_hex) {
    const Bytes digest = TRY(unhex(hash_hex));
    auto query = db.query("SELECT 1 FROM private_text WHERE hash = ?");
    query.bind(digest);
    return query.next();
}

Result<void> each_altered_text(
    Database& db,
    const std::function<void(const std::string& hash, const std::string& about)>& visit) {
    auto query = db.query("SELECT hash, salt, text, about FROM private_text ORDER BY hash");
    while (TRY(query.next())) {
        const std::string hash = hex(query.blob(0));
        if (hex(salted_digest(query.blob(1), query.text(2))) == hash) continue;
        visit(hash, query.text(3));
    }
    return {};
}

Result<void> erase_private(Database& db, std::string_view about) {
    TRY(db.query("DELETE FROM private_text WHERE about = ?").bind(about).run());
    // The page is overwritten in the file, but the log still holds it until it is written back.
    if (!db.in_transaction()) return db.checkpoint();
    return {};
}

Result<bool> erase_private_text(Database& db, std::string_view hash_hex) {
    const Bytes digest = TRY(unhex(hash_hex));
    auto query = db.query("DELETE FROM private_text WHERE hash = ? RETURNING 1");
    query.bind(digest);
    const bool was_there = TRY(query.next());
    while (TRY(query.next())) {
    }
    return was_there;
}

Result<std::vector<std::string>> private_texts_about(Database& db, std::string_view about) {
    auto query = db.query("SELECT hash FROM private_text WHERE about = ? ORDER BY hash");
    query.bind(about);
    std::vector<std::string> hashes;
    while (TRY(query.next())) hashes.push_back(hex(query.blob(0)));
    return hashes;
}

}  // namespace holdpin
