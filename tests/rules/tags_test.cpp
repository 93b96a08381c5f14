#include "rules/tags.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

using namespace holdpin;

TEST_CASE("a code has six letters or digits that are not taken for each other") {
    std::set<std::string> codes;
    for (std::uint32_t number = 0; number < kTagCodes; number += 7'919) {
        const std::string code = tag_code(number);
        CHECK(code.size() == kTagLength);
        CHECK(code.find_first_not_of(kTagLetters) == std::string::npos);
        CHECK(codes.insert(code).second);
    }
    // Common practice, no source: pairs that are misread on a card.
    for (const char letter : std::string_view("0OQ1IL2Z5S8BGUW")) {
        CHECK(kTagLetters.find(letter) == std::string_view::npos);
    }
}

TEST_CASE("a code is the same however it is typed") {
    CHECK(typed_code("k4p-x 7h") == "K4PX7H");
    CHECK(typed_code("") == "");
}

TEST_CASE("a scanned tag gives the code on it, and what is no line of a tag stays as typed") {
    CHECK(tag_line("SW-14", "K7DM3X", 512) == "HPTAG:SW-14:K7DM3X:512");
    CHECK(typed_code(tag_line("SW-14", "K7DM3X", 512)) == "K7DM3X");
    CHECK(typed_code("k7d-m3x ") == "K7DM3X");
    CHECK(typed_code("HPTAG:") == "HPTAG:");
    CHECK(typed_code("HPTAG:SW") == "HPTAG:SW");
}

TEST_CASE("whoever put the tag up or has read it is not asked again, and the next one is") {
    Tag tag;
    CHECK_FALSE(is_asked_for(tag, "ana"));
    tag.put_up = true;
    CHECK(is_asked_for(tag, "ana"));
    tag.put_up_by = "ana";
    CHECK_FALSE(is_asked_for(tag, "ana"));
    CHECK(is_asked_for(tag, "bo"));
    tag.read_by = "bo";
    CHECK_FALSE(is_asked_for(tag, "bo"));
    CHECK(is_asked_for(tag, "cy"));
}
