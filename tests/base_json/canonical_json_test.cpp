// The sorting example is the one of RFC 8785, section 3.2.3, from memory.
#include "base_json/canonical_json.hpp"

#include <doctest/doctest.h>

#include <limits>
#include <nlohmann/json.hpp>

using namespace holdpin;
using nlohmann::json;

namespace {

std::string written(const json& value) {
    const auto text = canonical(value);
    return text.ok() ? text.value() : "refused: " + text.error().what;
}

}  // namespace

TEST_CASE("keys are sorted by UTF-16 code units, as in the RFC's example") {
    const json value = {{"\u20ac", "Euro Sign"},
                        {"\r", "Carriage Return"},
                        {"\ufb33", "Hebrew Letter Dalet With Dagesh"},
                        {"1", "One"},
                        {"\U0001f600", "Emoji: Grinning Face"},
                        {"\u0080", "Control"},
                        {"\u00f6", "Latin Small Letter O With Diaeresis"}};
    CHECK(written(value) ==
          "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\u0080\":\"Control\","
          "\"\u00f6\":\"Latin Small Letter O With Diaeresis\",\"\u20ac\":\"Euro Sign\","
          "\"\U0001f600\":\"Emoji: Grinning Face\","
          "\"\ufb33\":\"Hebrew Letter Dalet With Dagesh\"}");
}

TEST_CASE("values are written without white space and in one way") {
    CHECK(written(json::parse(R"( { "b" : [ 1 , -2, true , false, null ], "a" : { } } )")) ==
          R"({"a":{},"b":[1,-2,true,false,null]})");
    CHECK(written(json::array()) == "[]");
}

TEST_CASE("text has the shortest escapes and is otherwise plain UTF-8") {
    CHECK(written("\b\t\n\f\r\"\\/") == R"("\b\t\n\f\r\"\\/")");
    CHECK(written(std::string("\x01\x1f\x7f")) == "\"\\u0001\\u001f\x7f\"");
    CHECK(written("a\u00f1o \U0001f600") == "\"a\u00f1o \U0001f600\"");
}

TEST_CASE("integers below 2^53 are written, larger ones are refused") {
    CHECK(written(9007199254740991) == "9007199254740991");
    CHECK(written(-9007199254740991) == "-9007199254740991");
    CHECK_FALSE(canonical(9007199254740992).ok());
    CHECK_FALSE(canonical(-9007199254740992).ok());
    CHECK_FALSE(canonical(std::numeric_limits<std::int64_t>::min()).ok());
    CHECK_FALSE(canonical(std::numeric_limits<std::uint64_t>::max()).ok());
}

TEST_CASE("numbers with a point are refused and the fault names the place") {
    const auto refused = canonical(json{{"data", {{"list", {1, 2.5}}}}});
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.error().kind == ErrorKind::invalid);
    CHECK(refused.error().where == "/data/list/1");
    CHECK_FALSE(canonical(1.0).ok());
}

TEST_CASE("damaged UTF-8 is refused in texts and in keys") {
    for (const std::string bad :
         {"\x80", "\xc3", "\xc0\x80", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xe2\x82", "\xff"}) {
        CHECK_FALSE(canonical(json(bad)).ok());
        CHECK_FALSE(canonical(json{{bad, 1}}).ok());
    }
}

TEST_CASE("nesting has a limit") {
    json value = 1;
    for (int i = 0; i < kCanonicalDepthMax; ++i) value = json::array({value});
    CHECK(canonical(value).ok());
    CHECK_FALSE(canonical(json::array({value})).ok());
}
