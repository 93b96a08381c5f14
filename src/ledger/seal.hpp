// A seal is a signed tree head: how many entries there were, their root, when, and which kiosk says
// so. It is no entry. What changes below a seal no longer has its root, and without the kiosk's key
// nobody makes another. Form and signed bytes stand in FORMAT.md, and what a seal cannot do.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "base/text.hpp"
#include "ledger/tree.hpp"
#include "store/database.hpp"

namespace holdpin {

struct KioskKey;

struct Seal {
    std::uint64_t size = 0;  // at least 1
    Hash root{};
    std::string time;   // RFC 3339, UTC: 2026-11-25T11:40:12.345Z
    std::string kiosk;  // id of the key
    Bytes signature;    // Ed25519 over signed_text()
};

Seal make_seal(const KioskKey& key, std::uint64_t size, const Hash& root, std::int64_t at_ms);
std::string signed_text(const Seal& seal);
bool seal_holds(const Seal& seal, std::span<const std::uint8_t> public_key);

// RFC 8785 JSON of {kiosk, root, signature, size, time}.
std::string seal_body(const Seal& seal);
// Error: damaged, if the bytes are not exactly those that seal_body() gives for some seal.
Result<Seal> seal_from(std::string_view body);

// SubjectPublicKeyInfo (RFC 8410) as PEM, as openssl reads it.
std::string public_key_pem(std::span<const std::uint8_t> public_key);
// Error: damaged, if the text is not exactly what public_key_pem() gives for some key.
Result<Bytes> public_key_from_pem(std::string_view pem);

// ---- the tables `seal`, of those that stay, and `moving_seal`, of the one that moves on ----
// Error: refused by the table, if a seal over as many or more entries is there.
Result<void> keep_seal(Database& db, const Seal& seal);
// In the place of the one before. Error: as above.
Result<void> move_seal(Database& db, const Seal& seal);
Result<std::optional<Seal>> newest_seal(Database& db);  // of both
Result<std::optional<Seal>> newest_kept_seal(Database& db);
// The newest of those that stay for which it is so.
Result<std::optional<Seal>> find_kept_seal(Database& db,
                                           const std::function<bool(const Seal&)>& is_so);
Result<std::optional<Seal>> seal_over(Database& db, std::uint64_t size);
// The smallest one over at least `size` entries.
Result<std::optional<Seal>> first_seal_over(Database& db, std::uint64_t size);
Result<std::uint64_t> newest_sealed_size(Database& db);  // 0: none
// All of them, smallest first; stops at the first error.
Result<void> each_seal(Database& db, const std::function<Result<void>(const Seal&)>& visit);

}  // namespace holdpin
