#include "ledger/seal.hpp"

#include <sodium.h>

#include <algorithm>

#include "base/local_time.hpp"
#include "base_json/canonical_json.hpp"
#include "ledger/base64.hpp"
#include "ledger/ledger.hpp"

namespace holdpin {
namespace {

constexpr std::size_t kSealFields = 5;
constexpr std::uint64_t kMostSize = std::uint64_t{1} << 53;

std::optional<Hash> hash_from(const std::string& text) {
    const auto bytes = unhex(text);
    Hash hash{};
    if (!bytes || bytes.value().size() != hash.size()) return std::nullopt;
    std::copy(bytes.value().begin(), bytes.value().end(), hash.begin());
    return hash;
}

bool is_text(const nlohmann::json& object, const char* name) {
    const auto field = object.find(name);
    return field != object.end() && field->is_string();
}

Error no_seal() {
    return {ErrorKind::damaged, "these bytes are no seal of version 1", "", ""};
}

Result<Seal> seal_of_row(const Query& row) {
    auto seal = TRY(seal_from(row.text(1)));
    if (static_cast<std::int64_t>(seal.size) != row.integer(0)) {
        return Error{ErrorKind::damaged, "a seal stands at a number that is not its own", "", ""};
    }
    return seal;
}

Result<std::optional<Seal>> first_of(Query query) {
    std::optional<Seal> found;
    if (TRY(query.next())) found = TRY(seal_of_row(query));
    return found;
}

}  // namespace

Seal make_seal(const KioskKey& key, std::uint64_t size, const Hash& root, std::int64_t at_ms) {
    Seal seal{size, root, utc_text(at_ms), key.kiosk_id(), {}};
    const std::string text = signed_text(seal);
    seal.signature = sign(key, Bytes(text.begin(), text.end()));
    return seal;
}

std::string signed_text(const Seal& seal) {
    // The first line keeps the signature from passing for one over something else.
    return "holdpin seal 1\n" + std::to_string(seal.size) + "\n" + hex(seal.root) + "\n" +
           seal.time + "\n" + seal.kiosk + "\n";
}

bool seal_holds(const Seal& seal, std::span<const std::uint8_t> public_key) {
    const std::string text = signed_text(seal);
    return signature_holds(public_key, Bytes(text.begin(), text.end()), seal.signature);
}

std::string seal_body(const Seal& seal) {
    // Of texts in ASCII and one number below 2^53, so it always has a canonical form.
    return canonical({{"size", seal.size},
                      {"root", hex(seal.root)},
                      {"time", seal.time},
                      {"kiosk", seal.kiosk},
                      {"signature", base64(seal.signature)}})
        .value_or("");
}

Result<Seal> seal_from(std::string_view body) {
    const auto object = nlohmann::json::parse(body, nullptr, false);
    if (!object.is_object() || object.size() != kSealFields) return no_seal();
    const auto size = object.find("size");
    if (size == object.end() || !size->is_number_unsigned() || !is_text(object, "root") ||
        !is_text(object, "time") || !is_text(object, "kiosk") || !is_text(object, "signature")) {
        return no_seal();
    }
    const auto root = hash_from(object["root"].get<std::string>());
    const auto signature = from_base64(object["signature"].get<std::string>());
    if (!root || !signature) return no_seal();
    Seal seal{size->get<std::uint64_t>(), *root, object["time"].get<std::string>(),
              object["kiosk"].get<std::string>(), *signature};
    // A line feed within a field would make two seals of one signed text.
    const bool one_line = (seal.time + seal.kiosk).find('\n') == std::string::npos;
    if (!one_line || seal.size == 0 || seal.size >= kMostSize || seal_body(seal) != body) {
        return no_seal();
    }
    return seal;
}

std::string public_key_pem(std::span<const std::uint8_t> public_key) {
    // RFC 8410: SEQUENCE { SEQUENCE { 1.3.101.112 }, BIT STRING of 32 bytes }.
    Bytes der{0x30, 0x2a, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x03, 0x21, 0x00};
    der.insert(der.end(), public_key.begin(), public_key.end());
    return "-----BEGIN PUBLIC KEY-----\n" + base64(der) + "\n-----END PUBLIC KEY-----\n";
}

Result<Bytes> public_key_from_pem(std::string_view pem) {
    constexpr std::size_t kPrefix = 12;
    const auto lines = split(pem, '\n');
    const auto der = lines.size() < 2 ? std::nullopt : from_base64(lines[1]);
    Bytes key;
    if (der && der->size() > kPrefix) key.assign(der->begin() + kPrefix, der->end());
    if (key.size() != crypto_sign_PUBLICKEYBYTES || public_key_pem(key) != pem) {
        return Error{ErrorKind::damaged, "this is no Ed25519 public key", "", ""};
    }
    return key;
}

Result<void> keep_seal(Database& db, const Seal& seal) {
    return db.query("INSERT INTO seal (size, body) VALUES (?, ?)")
        .bind(static_cast<std::int64_t>(seal.size))
        .bind(seal_body(seal))
        .run();
}

Result<void> move_seal(Database& db, const Seal& seal) {
    return db
        .query("INSERT INTO moving_seal (one, size, body) VALUES (1, ?, ?) "
               "ON CONFLICT (one) DO UPDATE SET size = excluded.size, body = excluded.body")
        .bind(static_cast<std::int64_t>(seal.size))
        .bind(seal_body(seal))
        .run();
}

Result<std::optional<Seal>> newest_seal(Database& db) {
    return first_of(db.query("SELECT size, body FROM every_seal ORDER BY size DESC LIMIT 1"));
}

Result<std::optional<Seal>> newest_kept_seal(Database& db) {
    return first_of(db.query("SELECT size, body FROM seal ORDER BY size DESC LIMIT 1"));
}

Result<std::optional<Seal>> find_kept_seal(Database& db,
                                           const std::function<bool(const Seal&)>& is_so) {
    std::optional<Seal> found;
    auto query = db.query("SELECT size, body FROM seal ORDER BY size DESC");
    while (!found && TRY(query.next())) {
        Seal seal = TRY(seal_of_row(query));
        if (is_so(seal)) found = std::move(seal);
    }
    return found;
}

Result<std::optional<Seal>> seal_over(Database& db, std::uint64_t size) {
    auto query = db.query("SELECT size, body FROM every_seal WHERE size = ?");
    query.bind(static_cast<std::int64_t>(size));
    return first_of(std::move(query));
}

Result<std::optional<Seal>> first_seal_over(Database& db, std::uint64_t size) {
    auto query = db.query("SELECT size, body FROM every_seal WHERE size >= ? "
                          "ORDER BY size LIMIT 1");
    query.bind(static_cast<std::int64_t>(size));
    return first_of(std::move(query));
}

Result<std::uint64_t> newest_sealed_size(Database& db) {
    // Not the greatest of the view, for which every seal would be read.
    auto query = db.query("SELECT max((SELECT coalesce(max(size), 0) FROM seal), "
                          "(SELECT coalesce(max(size), 0) FROM moving_seal))");
    TRY(query.next());
    return static_cast<std::uint64_t>(query.integer(0));
}

Result<void> each_seal(Database& db, const std::function<Result<void>(const Seal&)>& visit) {
    auto query = db.query("SELECT size, body FROM every_seal ORDER BY size");
    while (TRY(query.next())) TRY(visit(TRY(seal_of_row(query))));
    return {};
}

}  // namespace holdpin
