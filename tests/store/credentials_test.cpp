// Vectors: HMAC-SHA-256 RFC 4231 test case 1 and SHA-256 FIPS 180 examples, from memory;
// Argon2id from the reference implementation (P-H-C/phc-winner-argon2, src/test.c). An
// independent library gives the same for all of them.
// Not covered, because libsodium does not offer them: RFC 9106 section 5.3 (four lanes, a key and
// associated data), Argon2d, PBKDF2 of RFC 7914, HOTP of RFC 4226 and TOTP of RFC 6238.
#include <doctest/doctest.h>
#include <sodium.h>

#include <set>

#include "store/scratch.hpp"
#include "store/tables.hpp"

using namespace holdpin;

namespace {

constexpr std::int64_t kNow = 1'795'606'812'000;
constexpr std::int64_t kSecond = 1000;

struct Book {
    std::unique_ptr<Database> db = opened(":memory:");
    SeededRandom random{7};
    PinBook pins{*db, random, Bytes(32, 0x5a), PinCost::least};

    PinCheck check(std::string_view pin, std::int64_t now_ms) {
        const auto answer = pins.check("p-a", pin, now_ms);
        if (!answer) FAIL(answer.error().sentence());
        return answer.value();
    }
};

std::string sha256_of(const std::string& text) {
    const Bytes bytes(text.begin(), text.end());
    Bytes digest(crypto_hash_sha256_BYTES);
    crypto_hash_sha256(digest.data(), bytes.data(), bytes.size());
    return hex(digest);
}

}  // namespace

TEST_CASE("the library's hashes are the published ones") {
    REQUIRE(sodium_init() >= 0);
    CHECK(sha256_of("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    CHECK(sha256_of("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sha256_of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    CHECK(sha256_of("abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmno"
                    "ijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu") ==
          "cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1");
    CHECK(sha256_of(std::string(1'000'000, 'a')) ==
          "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("the library's HMAC-SHA-256 is that of RFC 4231") {
    const Bytes key(20, 0x0b);
    const std::string text = "Hi There";
    const Bytes message(text.begin(), text.end());
    crypto_auth_hmacsha256_state state;
    crypto_auth_hmacsha256_init(&state, key.data(), key.size());
    crypto_auth_hmacsha256_update(&state, message.data(), message.size());
    Bytes mac(crypto_auth_hmacsha256_BYTES);
    crypto_auth_hmacsha256_final(&state, mac.data());
    CHECK(hex(mac) == "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7");
}

TEST_CASE("the library's Argon2id is that of the reference implementation") {
    REQUIRE(sodium_init() >= 0);
    const char* encoded =
        "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";
    CHECK(crypto_pwhash_str_verify(encoded, "password", 8) == 0);
    CHECK(crypto_pwhash_str_verify(encoded, "passwore", 8) != 0);
}

TEST_CASE("a PIN is right, wrong or unknown, and stands nowhere as digits") {
    Book book;
    REQUIRE(book.pins.set("p-a", "482915", true));
    CHECK(book.check("482915", kNow).answer == PinAnswer::right);
    CHECK(book.check("482916", kNow).answer == PinAnswer::wrong);
    CHECK(book.check("", kNow).answer == PinAnswer::wrong);
    CHECK(book.pins.check("p-b", "482915", kNow).value().answer == PinAnswer::unknown);
    const auto stored = book.pins.find("p-a").value();
    REQUIRE(stored);
    CHECK(stored->must_change);
    CHECK(stored->hash.starts_with("own:$argon2id$v=19$"));
    CHECK(stored->hash.find("482915") == std::string::npos);
    CHECK_FALSE(book.pins.find("p-b").value());
    for (const char* pin : {"", "12345", "1234567890123", "48291a"}) {
        CHECK(book.pins.set("p-a", pin, false).error().kind == ErrorKind::invalid);
    }
}

TEST_CASE("hashes made for people cost what the library calls interactive") {
    Book book;
    PinBook dear(*book.db, book.random, Bytes(32, 1), PinCost::interactive);
    REQUIRE(dear.set("p-a", "482915", false));
    CHECK(dear.find("p-a").value()->hash.starts_with("own:$argon2id$v=19$m=65536,t=2,p=1$"));
    CHECK(dear.check("p-a", "482915", kNow).value().answer == PinAnswer::right);
}

TEST_CASE("a hash that was copied beside another's name opens nothing") {
    Book book;
    REQUIRE(book.pins.set("p-a", "482915", false));
    REQUIRE(book.pins.set("p-b", "605172", false));
    REQUIRE(book.db->query("UPDATE credential SET hash = (SELECT hash FROM credential "
                           "WHERE person = 'p-a') WHERE person = 'p-b'").run());
    CHECK(book.pins.check("p-b", "482915", kNow).value().answer == PinAnswer::wrong);
    CHECK(book.pins.check("p-a", "482915", kNow).value().answer == PinAnswer::right);
}

TEST_CASE("a hash of an older version opens once, and is then bound to its person") {
    REQUIRE(sodium_init() >= 0);
    Book book;
    const Bytes pepper(32, 1);
    PinBook pins(*book.db, book.random, pepper, PinCost::least);
    REQUIRE(pins.set("p-a", "482915", false));
    const std::string pin = "482915";
    std::array<unsigned char, crypto_auth_hmacsha256_BYTES> mac{};
    crypto_auth_hmacsha256(mac.data(), reinterpret_cast<const unsigned char*>(pin.data()),
                           pin.size(), pepper.data());
    std::array<char, crypto_pwhash_STRBYTES> hash{};
    REQUIRE(crypto_pwhash_str(hash.data(), reinterpret_cast<const char*>(mac.data()), mac.size(),
                              crypto_pwhash_OPSLIMIT_MIN, crypto_pwhash_MEMLIMIT_MIN) == 0);
    REQUIRE(book.db->query("UPDATE credential SET hash = ? WHERE person = 'p-a'")
                .bind(std::string_view(hash.data()))
                .run());
    CHECK(pins.check("p-a", "482916", kNow).value().answer == PinAnswer::wrong);
    CHECK(pins.check("p-a", "482915", kNow).value().answer == PinAnswer::right);
    CHECK(pins.find("p-a").value()->hash.starts_with("own:"));
    CHECK(pins.check("p-a", "482915", kNow).value().answer == PinAnswer::right);
}

TEST_CASE("a PIN is worth nothing without its pepper") {
    Book book;
    REQUIRE(book.pins.set("p-a", "482915", false));
    PinBook other(*book.db, book.random, Bytes(32, 0x5b), PinCost::least);
    CHECK(other.check("p-a", "482915", kNow).value().answer == PinAnswer::wrong);
    PinBook none(*book.db, book.random, {}, PinCost::least);
    CHECK(none.set("p-a", "482915", false).error().kind == ErrorKind::failed);
    CHECK_FALSE(none.check("p-a", "482915", kNow));
}

TEST_CASE("waiting grows with every failure, and the tenth locks") {
    Book book;
    REQUIRE(book.pins.set("p-a", "482915", false));
    constexpr std::int64_t kWaits[] = {0, 0, 5, 15, 60, 120, 300, 600, 900};
    std::int64_t now = kNow;
    int failures = 0;
    for (const std::int64_t wait : kWaits) {
        const PinCheck wrong = book.check("000000", now);
        CHECK(wrong.answer == PinAnswer::wrong);
        CHECK(wrong.failures == ++failures);
        CHECK(wrong.wait_ms == wait * kSecond);
        if (wait > 0) {
            // Too early: not even the right one counts, and nothing is added.
            const PinCheck early = book.check("482915", now + wait * kSecond - 1);
            CHECK(early.answer == PinAnswer::wait);
            CHECK(early.wait_ms == 1);
            CHECK(early.failures == failures);
        }
        now += wait * kSecond;
    }
    const PinCheck tenth = book.check("000000", now);
    CHECK(tenth.answer == PinAnswer::locked);
    CHECK(tenth.failures == 10);
    CHECK(book.check("482915", now + 365LL * 86400 * kSecond).answer == PinAnswer::locked);

    REQUIRE(book.pins.set("p-a", "915482", true));
    CHECK(book.check("915482", now).answer == PinAnswer::right);
}

TEST_CASE("the right PIN ends the counting and tells how many failed before it") {
    Book book;
    REQUIRE(book.pins.set("p-a", "482915", false));
    book.check("000000", kNow);
    book.check("000000", kNow);
    const PinCheck right = book.check("482915", kNow);
    CHECK(right.answer == PinAnswer::right);
    CHECK(right.failures == 2);
    CHECK(book.pins.find("p-a").value()->failures == 0);
    CHECK(book.check("000000", kNow).failures == 1);
}

TEST_CASE("the right PIN at the tenth attempt is right") {
    Book book;
    REQUIRE(book.pins.set("p-a", "482915", false));
    std::int64_t now = kNow;
    for (int i = 0; i < 9; ++i) now += book.check("000000", now).wait_ms;
    CHECK(book.check("482915", now).answer == PinAnswer::right);
    CHECK_FALSE(book.pins.find("p-a").value()->locked);
}

TEST_CASE("a clock set back makes nobody wait longer than the delay, nor less") {
    Book book;
    REQUIRE(book.pins.set("p-a", "482915", false));
    for (int i = 0; i < 3; ++i) book.check("000000", kNow);
    const std::int64_t year_before = kNow - 365LL * 86400 * kSecond;
    const PinCheck early = book.check("482915", year_before);
    CHECK(early.answer == PinAnswer::wait);
    CHECK(early.wait_ms == 5 * kSecond);
    CHECK(book.check("482915", year_before + 4 * kSecond).answer == PinAnswer::wait);
    CHECK(book.check("482915", year_before + 5 * kSecond).answer == PinAnswer::right);
}

TEST_CASE("the attempt is on disk before it is judged") {
    const Scratch scratch;
    SeededRandom random(1);
    const auto db = opened(scratch.path("a.db"));
    PinBook pins(*db, random, Bytes(32, 1), PinCost::least);
    REQUIRE(pins.set("p-a", "482915", false));
    // A hash that cannot be checked stands for a kiosk that stops at the moment of judging.
    REQUIRE(db->execute("UPDATE credential SET hash = 'unreadable'"));
    static_cast<void>(pins.check("p-a", "482915", kNow));
    std::filesystem::copy_file(scratch.path("a.db"), scratch.path("cut"));
    std::filesystem::copy_file(scratch.path("a.db-wal"), scratch.path("cut-wal"));
    const auto reopened = opened(scratch.path("cut"));
    PinBook after(*reopened, random, Bytes(32, 1), PinCost::least);
    CHECK(after.find("p-a").value()->failures == 1);
}

TEST_CASE("a PIN is not checked where a rollback could take the count back") {
    Book book;
    REQUIRE(book.pins.set("p-a", "482915", false));
    const auto outcome = book.db->transaction([&]() -> Result<void> {
        TRY(book.pins.check("p-a", "482915", kNow));
        return {};
    });
    REQUIRE_FALSE(outcome);
    CHECK(outcome.error().kind == ErrorKind::refused);
}

TEST_CASE("weak PINs are known") {
    for (const char* pin : {"",         "12345",    "abcdef", "1234567890123", "000000", "112112",
                            "121212",   "111122",   "123456", "654321",        "890123", "321098",
                            "912345",   "123123",   "777712", "198719",        "200020", "19871987",
                            "19871990", "20102011", "482482", "48294829"}) {
        CAPTURE(pin);
        CHECK(is_weak_pin(pin, ""));
    }
    for (const char* pin : {"482915", "730264", "194827", "90317264"}) {
        CAPTURE(pin);
        CHECK_FALSE(is_weak_pin(pin, ""));
    }
    CHECK(is_weak_pin("904821", "0482"));
    CHECK(is_weak_pin("482915", "77482915"));
    CHECK_FALSE(is_weak_pin("482915", "B-12"));
    CHECK_FALSE(is_weak_pin("482915", "4"));
}

TEST_CASE("drawn PINs are not weak, have the length asked for and differ") {
    Book book;
    std::set<std::string> drawn;
    for (int digits = 4; digits <= 14; ++digits) {
        for (int i = 0; i < 50; ++i) {
            const std::string pin = book.pins.draw(digits, "B-0482");
            CHECK(pin.size() == static_cast<std::size_t>(std::clamp(digits, 6, 12)));
            CHECK_FALSE(is_weak_pin(pin, "B-0482"));
            drawn.insert(pin);
        }
    }
    CHECK(drawn.size() > 540);
}
