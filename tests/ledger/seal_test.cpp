#include "ledger/seal.hpp"

#include "ledger/sealed_ledger.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

std::vector<std::uint64_t> sealed_sizes(Database& db) {
    std::vector<std::uint64_t> sizes;
    REQUIRE(each_seal(db, [&](const Seal& seal) -> Result<void> {
        sizes.push_back(seal.size);
        return {};
    }));
    return sizes;
}

}  // namespace

TEST_CASE("a seal is signed over its five lines, written in one way and read back") {
    const KioskKey key = kiosk_key_of(unhex(kSealedSeed).value()).value();
    Hash root{};
    root[31] = 0xab;
    const Seal seal = make_seal(key, 1234, root, kSealedNow);
    CHECK(signed_text(seal) ==
          "holdpin seal 1\n1234\n" + std::string(62, '0') +
              "ab\n2026-11-25T11:40:12.345Z\n" + key.kiosk_id() + "\n");
    CHECK(seal_holds(seal, key.public_key));
    const auto again = seal_from(seal_body(seal));
    REQUIRE(again);
    CHECK(seal_body(again.value()) == seal_body(seal));
    CHECK(seal_holds(again.value(), key.public_key));
}

TEST_CASE("a seal in which anything was changed does not hold") {
    const KioskKey key = kiosk_key_of(unhex(kSealedSeed).value()).value();
    const Seal seal = make_seal(key, 7, Hash{}, kSealedNow);
    Seal other = seal;
    other.size = 8;
    CHECK_FALSE(seal_holds(other, key.public_key));
    other = seal;
    other.root[0] = 1;
    CHECK_FALSE(seal_holds(other, key.public_key));
    other = seal;
    other.time[0] = '3';
    CHECK_FALSE(seal_holds(other, key.public_key));
    other = seal;
    other.kiosk[0] = 'x';
    CHECK_FALSE(seal_holds(other, key.public_key));
    Bytes strange = key.public_key;
    strange[5] ^= 1;
    CHECK_FALSE(seal_holds(seal, strange));
}

TEST_CASE("every byte of a seal that is changed is refused or no longer holds") {
    const KioskKey key = kiosk_key_of(unhex(kSealedSeed).value()).value();
    const std::string body = seal_body(make_seal(key, 7, Hash{}, kSealedNow));
    for (std::size_t i = 0; i < body.size(); ++i) {
        for (unsigned bit = 0; bit < 8; ++bit) {
            std::string altered = body;
            altered[i] = static_cast<char>(static_cast<unsigned char>(altered[i]) ^ (1U << bit));
            const auto seal = seal_from(altered);
            CAPTURE(altered);
            CHECK_FALSE((seal && seal_holds(seal.value(), key.public_key)));
        }
    }
    for (const std::string& text : {std::string(), " " + body, body + "\n", std::string("{}"),
                                    std::string("[1,2,3,4,5]"), body + body}) {
        CHECK_FALSE(seal_from(text));
    }
}

TEST_CASE("the table keeps each seal as it is, in growing order, and never ahead of the entries") {
    SealedLedger kiosk(":memory:");
    kiosk.fill_and_seal(3);
    kiosk.seal();
    CHECK(sealed_sizes(*kiosk.db) == std::vector<std::uint64_t>{3});
    CHECK_FALSE(kiosk.db->execute("UPDATE seal SET body = 'x'"));
    CHECK_FALSE(kiosk.db->execute("DELETE FROM seal"));
    CHECK_FALSE(kiosk.db->execute("INSERT OR REPLACE INTO seal (size, body) VALUES (3, 'x')"));
    CHECK_FALSE(kiosk.db->execute("INSERT INTO seal (size, body) VALUES (2, 'x')"));
    CHECK_FALSE(kiosk.db->execute("INSERT INTO seal (size, body) VALUES (4, 'x')"));
    CHECK_FALSE(kiosk.db->execute("INSERT INTO seal (body) VALUES ('x')"));
    CHECK(newest_seal(*kiosk.db).value()->size == 3);
    CHECK(seal_over(*kiosk.db, 3).value().has_value());
    CHECK_FALSE(seal_over(*kiosk.db, 2).value().has_value());
    CHECK(first_seal_over(*kiosk.db, 2).value()->size == 3);
    CHECK_FALSE(first_seal_over(*kiosk.db, 4).value().has_value());
}

TEST_CASE("nothing is sealed in an empty ledger, and a seal is due after 64 entries") {
    SealedLedger kiosk(":memory:");
    kiosk.seal();
    CHECK(sealed_sizes(*kiosk.db).empty());
    for (int i = 0; i < 200; ++i) {
        kiosk.fill(1);
        REQUIRE(kiosk.sealer->seal_if_due());
    }
    CHECK(sealed_sizes(*kiosk.db) == std::vector<std::uint64_t>{64, 128, 192});
}

TEST_CASE("the moving seal goes along with the entries, and those that stay step past it") {
    SealedLedger kiosk(":memory:");
    kiosk.fill_and_seal(2);
    for (int i = 0; i < 3; ++i) {
        kiosk.fill(1);
        REQUIRE(kiosk.sealer->seal_along());
        REQUIRE(kiosk.sealer->seal_along());
    }
    CHECK(sealed_sizes(*kiosk.db) == std::vector<std::uint64_t>{2, 5});
    CHECK(newest_sealed_size(*kiosk.db).value() == 5);
    CHECK(newest_seal(*kiosk.db).value()->size == 5);
    CHECK(newest_kept_seal(*kiosk.db).value()->size == 2);
    CHECK(first_seal_over(*kiosk.db, 3).value()->size == 5);
    CHECK_FALSE(kiosk.db->execute("DELETE FROM moving_seal"));
    CHECK_FALSE(kiosk.db->execute("UPDATE moving_seal SET body = 'x'"));
    CHECK_FALSE(kiosk.db->execute("UPDATE moving_seal SET size = 6"));
    CHECK_FALSE(kiosk.db->execute("INSERT INTO moving_seal (one, size, body) VALUES (2, 6, 'x')"));
    const std::string moving = seal_body(*newest_seal(*kiosk.db).value());
    kiosk.seal();
    CHECK(sealed_sizes(*kiosk.db) == std::vector<std::uint64_t>{2, 5});
    CHECK(seal_body(*newest_kept_seal(*kiosk.db).value()) == moving);
    for (int i = 0; i < 64; ++i) {
        kiosk.fill(1);
        REQUIRE(kiosk.sealer->seal_along());
    }
    CHECK(sealed_sizes(*kiosk.db) == std::vector<std::uint64_t>{2, 5, 69});
    CHECK(newest_kept_seal(*kiosk.db).value()->size == 69);
}

TEST_CASE("a seal goes with the transaction it was made in, and its copy waits for it") {
    const Scratch scratch;
    const std::string copy = scratch.path("outside/seal.json");
    SealedLedger kiosk(scratch.path("a.db"), copy);
    kiosk.fill(2);
    REQUIRE_FALSE(kiosk.db->transaction([&]() -> Result<void> {
        REQUIRE(kiosk.sealer->seal());
        kiosk.sealer->keep_copy();
        return Error{};
    }));
    CHECK_FALSE(fs::exists(copy));
    CHECK(sealed_sizes(*kiosk.db).empty());
    kiosk.seal();
    CHECK(seal_outside(copy, kiosk.key.public_key).value()->size == 2);
    CHECK(kiosk.complaints.empty());
}

TEST_CASE("a copy that cannot be written is said once, and again after it worked") {
    const Scratch scratch;
    const std::string copy = scratch.path("outside/seal.json");
    REQUIRE(write_file(scratch.path("outside"), "a file where a folder should be"));
    SealedLedger kiosk(":memory:", copy);
    kiosk.fill_and_seal(1);
    kiosk.fill_and_seal(1);
    CHECK(kiosk.complaints.size() == 1);
    fs::remove(scratch.path("outside"));
    kiosk.fill_and_seal(1);
    CHECK(seal_outside(copy, kiosk.key.public_key).value()->size == 3);
    fs::remove_all(scratch.path("outside"));
    REQUIRE(write_file(scratch.path("outside"), ""));
    kiosk.fill_and_seal(1);
    CHECK(kiosk.complaints.size() == 2);
}
