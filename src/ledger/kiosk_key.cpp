#include <sodium.h>

#include <array>
#include <filesystem>

#include "ledger/ledger.hpp"

namespace holdpin {
namespace {

constexpr std::size_t kIdDigits = 16;
using SecretKey = std::array<std::uint8_t, crypto_sign_SECRETKEYBYTES>;

SecretKey secret_of(const Bytes& seed, Bytes& public_key) {
    SecretKey secret{};
    public_key.resize(crypto_sign_PUBLICKEYBYTES);
    crypto_sign_seed_keypair(public_key.data(), secret.data(), seed.data());
    return secret;
}

}  // namespace

Result<KioskKey> kiosk_key_of(Bytes seed) {
    if (sodium_init() < 0) {
        return Error{ErrorKind::failed, "the signing library does not start", "", ""};
    }
    if (seed.size() != crypto_sign_SEEDBYTES) {
        return Error{ErrorKind::invalid, "the seed of a key is 32 bytes", "", ""};
    }
    KioskKey key;
    key.seed = std::move(seed);
    SecretKey secret = secret_of(key.seed, key.public_key);
    sodium_memzero(secret.data(), secret.size());
    return key;
}

std::string KioskKey::kiosk_id() const {
    Hash digest{};
    crypto_hash_sha256(digest.data(), public_key.data(), public_key.size());
    return hex(digest).substr(0, kIdDigits);
}

Result<KioskKey> make_kiosk_key(const std::string& path, Random& random) {
    std::error_code ignored;
    if (std::filesystem::exists(path, ignored)) {
        return Error{ErrorKind::refused, "the kiosk has a key already", path, ""};
    }
    Bytes seed(crypto_sign_SEEDBYTES);
    random.fill(seed);
    TRY(write_file(path, hex(seed) + "\n", 0600));
    return kiosk_key_of(std::move(seed));
}

Result<KioskKey> load_kiosk_key(const std::string& path) {
    const std::string text = TRY(read_secret(path));
    auto seed = unhex(trimmed(text));
    if (!seed || seed.value().size() != crypto_sign_SEEDBYTES) {
        // The text of the file is a secret, also in an error.
        return Error{ErrorKind::damaged, "this is no key: it is not 64 hexadecimal digits", path,
                     "go back to a copy of the key"};
    }
    return kiosk_key_of(std::move(seed).value());
}

Bytes sign(const KioskKey& key, std::span<const std::uint8_t> message) {
    Bytes public_key;
    SecretKey secret = secret_of(key.seed, public_key);
    Bytes signature(crypto_sign_BYTES);
    crypto_sign_detached(signature.data(), nullptr, message.data(), message.size(), secret.data());
    sodium_memzero(secret.data(), secret.size());
    return signature;
}

bool signature_holds(std::span<const std::uint8_t> public_key,
                     std::span<const std::uint8_t> message,
                     std::span<const std::uint8_t> signature) {
    return public_key.size() == crypto_sign_PUBLICKEYBYTES &&
           signature.size() == crypto_sign_BYTES &&
           crypto_sign_verify_detached(signature.data(), message.data(), message.size(),
                                       public_key.data()) == 0;
}

}  // namespace holdpin
