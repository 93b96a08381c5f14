// Vectors: FIPS 180-4 examples and the empty text; all agree with an independent library.
#include "base/sha256.hpp"

#include <doctest/doctest.h>

#include <string>

#include "base/text.hpp"

using namespace holdpin;

TEST_CASE("SHA-256 gives the published digests") {
    CHECK(hex(sha256("")) == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    CHECK(hex(sha256("abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(hex(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")) ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    CHECK(hex(sha256("abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmno"
                     "ijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu")) ==
          "cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1");
    CHECK(hex(sha256(std::string(1'000'000, 'a'))) ==
          "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("the digest does not depend on how the bytes were cut") {
    std::string text;
    for (int i = 0; i < 300; ++i) text += static_cast<char>(i * 7);
    // Every length up to past two blocks crosses each padding case once.
    for (std::size_t length = 0; length <= 140; ++length) {
        const std::string_view part = std::string_view(text).substr(0, length);
        for (std::size_t cut = 0; cut <= length; ++cut) {
            Sha256 hash;
            hash.update(part.substr(0, cut));
            hash.update(part.substr(cut));
            REQUIRE(hash.finish() == sha256(part));
        }
    }
}

TEST_CASE("a finished hash starts anew") {
    Sha256 hash;
    hash.update("something else");
    (void)hash.finish();
    hash.update("abc");
    CHECK(hash.finish() == sha256("abc"));
}
