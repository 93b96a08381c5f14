// Vectors: Ed25519 RFC 8032 section 7.1, tests 1 and 2, from memory; an independent library gives
// the same. The id of a key is our own.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include "ledger/ledger.hpp"
#include "store/scratch.hpp"

using namespace holdpin;

namespace {

struct Vector {
    const char* seed;
    const char* public_key;
    const char* message;
    const char* signature;
};

constexpr Vector kVectors[] = {
    {"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
     "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
     "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9"
     "b46bd25bf5f0595bbe24655141438e7a100b"},
    {"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
     "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
     "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f1"
     "1d8c387b2eaeb4302aeeb00d291612bb0c00"},
};

}  // namespace

TEST_CASE("the kiosk key signs as RFC 8032 says") {
    const Scratch scratch;
    for (const auto& vector : kVectors) {
        REQUIRE(write_file(scratch.path("key"), std::string(vector.seed) + "\n", 0600));
        const auto key = load_kiosk_key(scratch.path("key"));
        REQUIRE(key);
        CHECK(hex(key.value().public_key) == vector.public_key);
        const Bytes message = unhex(vector.message).value();
        CHECK(hex(sign(key.value(), message)) == vector.signature);
        CHECK(signature_holds(key.value().public_key, message, unhex(vector.signature).value()));
    }
}

TEST_CASE("a signature does not hold once a bit of it, of the message or of the key is turned") {
    const Scratch scratch;
    SeededRandom random(8032);
    const auto key = make_kiosk_key(scratch.path("key"), random);
    REQUIRE(key);
    const Bytes public_key = key.value().public_key;
    const Bytes message{'r', 'o', 'o', 't'};
    const Bytes signature = sign(key.value(), message);
    REQUIRE(signature_holds(public_key, message, signature));
    const auto turned = [](Bytes bytes, std::size_t bit) {
        bytes[bit / 8] ^= static_cast<std::uint8_t>(1U << (bit % 8));
        return bytes;
    };
    for (std::size_t bit = 0; bit < 512; ++bit) {
        CHECK_FALSE(signature_holds(public_key, message, turned(signature, bit)));
    }
    for (std::size_t bit = 0; bit < 32; ++bit) {
        CHECK_FALSE(signature_holds(public_key, turned(message, bit), signature));
    }
    for (std::size_t bit = 0; bit < 256; ++bit) {
        CHECK_FALSE(signature_holds(turned(public_key, bit), message, signature));
    }
    CHECK_FALSE(signature_holds(public_key, message, Bytes(63)));
    CHECK_FALSE(signature_holds({}, message, signature));
}

TEST_CASE("a kiosk key is made once, is for its owner only, and comes back the same") {
    const Scratch scratch;
    SeededRandom random(1);
    const auto made = make_kiosk_key(scratch.path("key"), random);
    REQUIRE(made);
    CHECK(made.value().kiosk_id().size() == 16);
    struct stat status {};
    REQUIRE(stat(scratch.path("key").c_str(), &status) == 0);
    CHECK((status.st_mode & 0777) == 0600);
    const auto loaded = load_kiosk_key(scratch.path("key"));
    REQUIRE(loaded);
    CHECK(loaded.value().seed == made.value().seed);
    CHECK(loaded.value().public_key == made.value().public_key);

    for (const mode_t mode : {0644U, 0640U, 0601U}) {
        REQUIRE(chmod(scratch.path("key").c_str(), mode) == 0);
        CHECK(load_kiosk_key(scratch.path("key")).error().kind == ErrorKind::refused);
    }
    REQUIRE(chmod(scratch.path("key").c_str(), 0400) == 0);
    CHECK(load_kiosk_key(scratch.path("key")).ok());

    const auto again = make_kiosk_key(scratch.path("key"), random);
    REQUIRE_FALSE(again);
    CHECK(again.error().kind == ErrorKind::refused);
}

TEST_CASE("a file that is no key is refused, and the error does not show what stands in it") {
    const Scratch scratch;
    for (const std::string text :
         {"", "abcd", "zz61b19deffd5a60ba844af492ec2cc44449c5697b326919"}) {
        REQUIRE(write_file(scratch.path("key"), text, 0600));
        const auto key = load_kiosk_key(scratch.path("key"));
        REQUIRE_FALSE(key);
        CHECK(key.error().kind == ErrorKind::damaged);
        if (!text.empty()) CHECK(key.error().sentence().find(text) == std::string::npos);
    }
    CHECK(load_kiosk_key(scratch.path("absent")).error().kind == ErrorKind::absent);
}
