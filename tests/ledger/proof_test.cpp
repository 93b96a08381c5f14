// Proofs as a stranger gets them: checked by tests/ledger/check_proof.py, which knows only python3,
// its hashlib and openssl. The examples that FORMAT.md walks through stand in tests/ledger/example.
#include "ledger/proof.hpp"

#include "ledger/sealed_ledger.hpp"
#include "support/shell.hpp"

using namespace holdpin;
using nlohmann::json;

namespace {

const std::string kFolder = std::string(HOLDPIN_TEST_SOURCE_DIR) + "/tests/ledger";

Ran run(const std::string& line) {
    return run_shell(line + " 2>&1");
}

// A folder with the public key, in which proofs are put down and checked.
struct Stranger {
    explicit Stranger(const KioskKey& key) {
        REQUIRE(write_file(scratch.path("key.pem"), public_key_pem(key.public_key)));
    }
    Ran check(const json& proof) {
        REQUIRE(write_file(scratch.path("proof.json"), proof.dump(2)));
        return run("python3 " + kFolder + "/check_proof.py " + scratch.path("proof.json") + " " +
                   scratch.path("key.pem"));
    }
    // Refused by its verdict, not by a script that fell over.
    bool refuses(const json& proof) {
        const Ran ran = check(proof);
        return ran.code == 1 && ran.said.find("does NOT hold") != std::string::npos;
    }
    Scratch scratch;
};

json inclusion(SealedLedger& kiosk, std::int64_t n) {
    const auto proof = inclusion_json(*kiosk.db, *kiosk.ledger, n);
    if (!proof) FAIL(proof.error().sentence());
    return proof.value();
}

json consistency(SealedLedger& kiosk, std::uint64_t old_size, std::uint64_t size) {
    const auto proof = consistency_json(*kiosk.db, *kiosk.ledger, old_size, size);
    if (!proof) FAIL(proof.error().sentence());
    return proof.value();
}

}  // namespace

TEST_CASE("a stranger checks inclusion proofs with python3 and openssl, and sees a spoiled one") {
    SealedLedger kiosk(":memory:");
    for (const int count : {1, 4, 8}) kiosk.fill_and_seal(count);
    Stranger stranger(kiosk.key);
    for (const std::int64_t n : {1, 2, 5, 6, 9, 13}) {
        const Ran ran = stranger.check(inclusion(kiosk, n));
        CHECK_MESSAGE(ran.code == 0, ran.said);
        CHECK(ran.said.find("holds") != std::string::npos);
    }
    const json good = inclusion(kiosk, 6);
    CHECK(good["size"] == 13);
    const auto spoiled = [&](const char* path, const json& value) {
        json bad = good;
        bad[json::json_pointer(path)] = value;
        CAPTURE(path);
        CHECK(stranger.refuses(bad));
    };
    spoiled("/body", "{}");
    spoiled("/entry", 7);
    spoiled("/size", 12);
    spoiled("/path/0", std::string(64, '0'));
    spoiled("/root", std::string(64, '0'));
    spoiled("/seal/size", 12);
    spoiled("/seal/time", "2026-11-25T11:40:12.346Z");
    spoiled("/seal/kiosk", "0000000000000000");
    spoiled("/seal", nullptr);
    json longer = good;
    longer["path"].push_back(std::string(64, '0'));
    CHECK(stranger.refuses(longer));
}

TEST_CASE("a stranger checks consistency proofs, and sees a spoiled one") {
    SealedLedger kiosk(":memory:");
    for (const int count : {3, 4, 1, 6}) kiosk.fill_and_seal(count);
    Stranger stranger(kiosk.key);
    struct Sizes {
        std::uint64_t old_size;
        std::uint64_t size;
    };
    for (const auto& [old_size, size] :
         {Sizes{3, 7}, Sizes{3, 14}, Sizes{8, 14}, Sizes{7, 8}, Sizes{8, 8}}) {
        const Ran ran = stranger.check(consistency(kiosk, old_size, size));
        CHECK_MESSAGE(ran.code == 0, ran.said);
    }
    // Without seals it is sound and signed by nobody, and that is said.
    const Ran unsigned_one = stranger.check(consistency(kiosk, 5, 6));
    CHECK(unsigned_one.code == 0);
    CHECK(unsigned_one.said.find("no seal") != std::string::npos);
    json bad = consistency(kiosk, 3, 14);
    bad["path"].erase(0);
    CHECK(stranger.refuses(bad));
    bad = consistency(kiosk, 3, 14);
    bad["old_root"] = std::string(64, '0');
    CHECK(stranger.refuses(bad));
    bad = consistency(kiosk, 3, 14);
    bad["old_seal"]["root"] = std::string(64, '0');
    CHECK(stranger.refuses(bad));
}

TEST_CASE("what cannot be proven is refused") {
    SealedLedger kiosk(":memory:");
    kiosk.fill_and_seal(5);
    kiosk.fill(1);
    const auto inclusion_kind = [&](std::int64_t n) {
        return inclusion_json(*kiosk.db, *kiosk.ledger, n).error().kind;
    };
    CHECK(inclusion_kind(6) == ErrorKind::absent);
    CHECK(inclusion_kind(7) == ErrorKind::absent);
    CHECK(inclusion_kind(0) == ErrorKind::absent);
    const auto kind = [&](std::uint64_t old_size, std::uint64_t size) {
        return consistency_json(*kiosk.db, *kiosk.ledger, old_size, size).error().kind;
    };
    CHECK(kind(0, 5) == ErrorKind::invalid);
    CHECK(kind(6, 5) == ErrorKind::invalid);
    CHECK(kind(5, 7) == ErrorKind::absent);
    kiosk.meddle_with("");
    kiosk.rewrite(2, "p-b");
    CHECK(inclusion_kind(2) == ErrorKind::damaged);
    CHECK(kind(5, 6) == ErrorKind::damaged);
}

TEST_CASE("openssl alone accepts the signature of a seal under the public key as PEM") {
    SealedLedger kiosk(":memory:");
    kiosk.fill_and_seal(3);
    const Seal seal = newest_seal(*kiosk.db).value().value();
    const Scratch scratch;
    REQUIRE(write_file(scratch.path("key.pem"), public_key_pem(kiosk.key.public_key)));
    REQUIRE(write_file(scratch.path("text"), signed_text(seal)));
    REQUIRE(write_file(scratch.path("signature"),
                       std::string(seal.signature.begin(), seal.signature.end())));
    const std::string line = "openssl pkeyutl -verify -pubin -inkey " + scratch.path("key.pem") +
                             " -rawin -in " + scratch.path("text") + " -sigfile " +
                             scratch.path("signature");
    CHECK(run(line).code == 0);
    REQUIRE(write_file(scratch.path("text"), signed_text(seal) + " "));
    CHECK(run(line).code != 0);
}

TEST_CASE("the examples of FORMAT.md are what this program says, and hold") {
    SealedLedger kiosk(":memory:");
    kiosk.fill_and_seal(2);
    kiosk.fill_and_seal(3);
    const std::string folder = kFolder + "/example/";
    const auto as_file = [](const json& proof) { return proof.dump(2) + "\n"; };
    CHECK(read_file(folder + "inclusion.json").value() == as_file(inclusion(kiosk, 3)));
    CHECK(read_file(folder + "consistency.json").value() == as_file(consistency(kiosk, 2, 5)));
    CHECK(read_file(folder + "key.pem").value() == public_key_pem(kiosk.key.public_key));
    for (const char* name : {"inclusion.json", "consistency.json"}) {
        const Ran ran = run("python3 " + kFolder + "/check_proof.py " + folder + name + " " +
                            folder + "key.pem");
        CHECK_MESSAGE(ran.code == 0, ran.said);
    }
}
