// Queries and replies of RFC 3161, held against openssl: it asks in the same bytes, and answers.
#include "ledger/time_stamp.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "ledger/base64.hpp"
#include "ledger/ledger.hpp"
#include "support/time_authority.hpp"

using namespace holdpin;

namespace {

Seal some_seal(std::uint64_t size) {
    const KioskKey key = kiosk_key_of(Bytes(32, 7)).value();
    Hash root{};
    root.fill(static_cast<std::uint8_t>(size));
    return make_seal(key, size, root, 1795606800000);
}

// As openssl prints it, to the second: "Nov 29 22:54:20 2026 GMT".
std::string as_openssl_says(const std::string& time) {
    constexpr const char* kMonths[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const auto month = static_cast<std::size_t>(std::stoi(time.substr(5, 2))) - 1;
    std::string day = time.substr(8, 2);
    if (day[0] == '0') day[0] = ' ';
    return std::string(kMonths[month]) + " " + day + " " + time.substr(11, 8) + " " +
           time.substr(0, 4) + " GMT";
}

// A reply as RFC 3161 builds it, with only what is read, and this time.
std::string reply_with(const std::string& time) {
    const auto part = [](char tag, const std::string& content) {
        REQUIRE(content.size() < 128);
        return std::string(1, tag) + static_cast<char>(content.size()) + content;
    };
    const std::string sha256_id("\x06\x09\x60\x86\x48\x01\x65\x03\x04\x02\x01", 11);
    const std::string one("\x02\x01\x01", 3);
    const std::string imprint = part('\x30', part('\x30', sha256_id) +
                                                 part('\x04', std::string(32, 'd')));
    const std::string info =
        part('\x30', one + part('\x06', "\x2A") + imprint + one + part('\x18', time));
    const std::string content =
        part('\x30', std::string("\x06\x0B\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x01\x04", 13) +
                         part('\xA0', part('\x04', info)));
    const std::string data = part('\x30', one + part('\x31', "") + content);
    const std::string token =
        part('\x30', std::string("\x06\x09\x2A\x86\x48\x86\xF7\x0D\x01\x07\x02", 11) +
                         part('\xA0', data));
    return std::string("\x30\x81", 2) + static_cast<char>(token.size() + 5) +
           part('\x30', std::string("\x02\x01\x00", 3)) + token;
}

}  // namespace

TEST_CASE("a query has the bytes that openssl writes for the same seal") {
    const TempDir dir;
    const Seal seal = some_seal(12084);
    REQUIRE(write_file(dir / "seal.json", seal_body(seal) + "\n").ok());
    const Ran ran = run_shell("openssl ts -query -data " + (dir / "seal.json") +
                              " -sha256 -cert -no_nonce -out " + (dir / "query") + " 2>&1");
    REQUIRE_MESSAGE(ran.code == 0, ran.said);
    CHECK(stamp_query(stamped_digest(seal)) == read_file(dir / "query").value());
}

TEST_CASE("the reply of an authority names the seal, and the moment that openssl reads in it") {
    const TimeAuthority authority;
    const Seal seal = some_seal(7);
    const std::string reply = authority.reply_to(stamp_query(stamped_digest(seal)));
    const auto stamp = stamp_from(reply);
    REQUIRE_MESSAGE(stamp.ok(), (stamp.ok() ? "" : stamp.error().sentence()));
    CHECK(stamp.value().digest == stamped_digest(seal));
    CHECK(stamp.value().digest != stamped_digest(some_seal(8)));
    REQUIRE(write_file(authority.dir() / "reply", reply).ok());
    const Ran text = run_shell("openssl ts -reply -text -in " + (authority.dir() / "reply"));
    const std::string line = "Time stamp: " + as_openssl_says(stamp.value().time);
    CHECK_MESSAGE(text.said.find(line) != std::string::npos, line, "\n", text.said);
}

TEST_CASE("an authority that does not stamp this is taken at its word") {
    const TimeAuthority authority("sha512");
    const auto stamp = stamp_from(authority.reply_to(stamp_query(stamped_digest(some_seal(7)))));
    REQUIRE_FALSE(stamp.ok());
    CHECK(stamp.error().kind == ErrorKind::refused);
}

TEST_CASE("a reply that was cut short, or is something else, is no stamp") {
    const TimeAuthority authority;
    const Seal seal = some_seal(7);
    const std::string reply = authority.reply_to(stamp_query(stamped_digest(seal)));
    REQUIRE(stamp_from(reply).ok());
    for (std::size_t size = 0; size < reply.size(); ++size) {
        CHECK_FALSE(stamp_from(reply.substr(0, size)).ok());
    }
    CHECK_FALSE(stamp_from(reply + "x").ok());
    CHECK_FALSE(stamp_from(std::string(kMostStampBytes + 1, '0')).ok());
    CHECK_FALSE(stamp_from("<html>404</html>").ok());
    CHECK_FALSE(stamp_from(stamp_query(stamped_digest(seal))).ok());
    // A byte that was turned over gives no stamp, another one, or one in what is not read here.
    std::size_t refused = 0;
    for (std::size_t at = 0; at < reply.size(); ++at) {
        std::string turned = reply;
        turned[at] = static_cast<char>(turned[at] ^ 0x40);
        const auto stamp = stamp_from(turned);
        refused += stamp.ok() && stamp.value().digest == stamped_digest(seal) ? 0U : 1U;
    }
    CHECK(refused > 100);
}

TEST_CASE("times of stamps are those of RFC 3161, with a fraction or without") {
    const auto time_of = [](const char* text) {
        const auto stamp = stamp_from(reply_with(text));
        return stamp ? stamp.value().time : "none";
    };
    CHECK(time_of("20261125114012Z") == "2026-11-25T11:40:12Z");
    CHECK(time_of("20161231235960Z") == "2016-12-31T23:59:60Z");  // a leap second, from memory
    CHECK(time_of("19990609001326.34352Z") == "1999-06-09T00:13:26.34352Z");  // RFC 3161, 2.4.2
    for (const char* wrong : {"", "Z", "20261125114012", "2026112511401Z", "20261125114012.Z",
                              "20261125114012+0100", "2026-11-25114012Z", "20261125114012,5Z",
                              "20261125114012.0123456789Z", "20261325114012Z",
                              "20261100114012Z", "20261125244012Z", "20261125116012Z",
                              "99999999999999Z"}) {
        CHECK_MESSAGE(time_of(wrong) == "none", wrong);
    }
}

TEST_CASE("base64 has the bytes of RFC 4648, section 10, and takes nothing else") {
    const auto of = [](std::string_view text) { return base64(Bytes(text.begin(), text.end())); };
    CHECK(of("f") == "Zg==");
    CHECK(of("fo") == "Zm8=");
    CHECK(of("foobar") == "Zm9vYmFy");
    CHECK(from_base64("Zm9vYg==") == Bytes{'f', 'o', 'o', 'b'});
    for (const char* wrong : {"", "Zg", "Zg=", "Zg==x", "Z g==", "Zm9v\n"}) {
        CHECK_FALSE(from_base64(wrong).has_value());
    }
}
