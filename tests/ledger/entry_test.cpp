// The worked example of ledger/FORMAT.md, and what is no entry. Source: our own format; its leaf
// was recomputed with another SHA-256 than the one the program uses.
#include <doctest/doctest.h>

#include "base/sha256.hpp"
#include "ledger/ledger.hpp"

using namespace holdpin;

namespace {

constexpr std::string_view kExample =
    R"({"about":0,"at_ms":1795606812345,"boot":"hand-0","by":["p-example"],"content":"",)"
    R"("data":{"meter":"1284.6"},"kind":"round-signed","kiosk":"dock","mono_ms":0,"n":1,)"
    R"("offset_min":-360,"salt":"000102030405060708090a0b0c0d0e0f","site":"example","v":1,)"
    R"("zone":"America/Chicago"})";

std::string with(std::string_view old_part, std::string_view new_part) {
    std::string body(kExample);
    const auto at = body.find(old_part);
    REQUIRE(at != std::string::npos);
    return body.replace(at, old_part.size(), new_part);
}

}  // namespace

TEST_CASE("the example of the format document is read, written back and hashed as it says") {
    const auto entry = entry_from(kExample);
    REQUIRE(entry);
    CHECK(entry.value().n == 1);
    CHECK(entry.value().kind == "round-signed");
    CHECK(entry.value().at_ms == 1795606812345);
    CHECK(entry.value().offset_min == -360);
    CHECK(entry.value().by == std::vector<std::string>{"p-example"});
    CHECK(entry.value().data["meter"] == "1284.6");
    CHECK(entry_body(entry.value()).value() == kExample);
    const Bytes body(kExample.begin(), kExample.end());
    const std::string leaf = hex(leaf_hash(body));
    CHECK(leaf == hex(sha256(std::string(1, '\0') + std::string(kExample))));
    CHECK(leaf == "069fda87bd1f3640b9627f3fe9ff84b92a54b32b00949bfc2c8ebf02ab3df583");
}

TEST_CASE("bytes that no entry is written as are refused") {
    for (const std::string& body : {std::string(),
                                    std::string("{}"),
                                    std::string("[]"),
                                    std::string("null"),
                                    std::string("\xff"),
                                    std::string(kExample) + " ",
                                    " " + std::string(kExample),
                                    std::string(kExample.substr(0, kExample.size() - 1)),
                                    with(R"("v":1)", R"("v":2)"),
                                    with(R"("v":1)", R"("v":1,"w":1)"),
                                    with(R"("v":1,)", ""),
                                    with(R"("v":1)", R"("v":1.0)"),
                                    with(R"("v":1)", R"("v":"1")"),
                                    with(R"("n":1)", R"("n":0)"),
                                    with(R"("n":1)", R"("n":1,"n":1)"),
                                    with(R"("about":0)", R"("about":1)"),
                                    with(R"("about":0)", R"("about":-1)"),
                                    with(R"("kind":"round-signed")", R"("kind":"")"),
                                    with(R"(["p-example"])", R"("p-example")"),
                                    with(R"(["p-example"])", "[7]"),
                                    with(R"({"meter":"1284.6"})", "[]"),
                                    with(R"("1284.6")", "1284.6"),
                                    with("0102", "010X"),
                                    with("0f\"", "0F\""),
                                    with("hand-0", "\\u0068and-0")}) {
        CAPTURE(body);
        const auto entry = entry_from(body);
        REQUIRE_FALSE(entry);
        CHECK(entry.error().kind == ErrorKind::damaged);
    }
}
