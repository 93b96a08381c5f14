#include <doctest/doctest.h>

#include <string>

#include "kiosk/wrap.hpp"

using namespace holdpin;

namespace {

// Every byte is one wide: the tests below use plain letters.
std::string wrapped(std::string_view text, float width) {
    const Wrapped result = wrap(
        text, width, [](std::string_view piece) { return static_cast<float>(piece.size()); });
    std::string lines;
    for (const std::string_view line : result.lines) {
        lines += (lines.empty() ? "" : "|") + std::string(line);
    }
    return lines + (result.broke_a_word ? "!" : "");
}

}  // namespace

TEST_SUITE("kiosk") {
TEST_CASE("text breaks at spaces and no line is wider than its room") {
    CHECK(wrapped("the pin is in", 7) == "the pin|is in");
    CHECK(wrapped("the pin is in", 100) == "the pin is in");
    CHECK(wrapped("one", 3) == "one");
}

TEST_CASE("a line feed starts a new line and may leave an empty one") {
    CHECK(wrapped("a\nb", 9) == "a|b");
    CHECK(wrapped("a\n\nb", 9) == "a||b");
}

TEST_CASE("a word wider than the room is broken and that is told") {
    CHECK(wrapped("abcdef", 4) == "abcd|ef!");
    CHECK(wrapped("x abcdef", 4) == "x|abcd|ef!");
}

TEST_CASE("the name of a file too wide for its room breaks behind a mark, a plate does not") {
    CHECK(wrapped("about-p-vang-oduya-2026-11-25-060512.pdf", 20) ==
          "about-p-vang-oduya-|2026-11-25-|060512.pdf");
    CHECK(wrapped("/var/lib/holdpin/site_folder", 22) == "/var/lib/holdpin/site_|folder");
    CHECK(wrapped("LT-21", 3) == "LT-|21!");
    CHECK(wrapped("LT-21", 4) == "LT-2|1!");
    CHECK(wrapped("onewordofmorethantwentyfour", 20) == "onewordofmorethantwe|ntyfour!");
}

TEST_CASE("a room of no width still ends") {
    CHECK(wrapped("ab", 0) == "a|b!");
}

TEST_CASE("a thin space holds a number together") {
    CHECK(wrapped("at 1\u202F284 h", 7) == "at|1\u202F284|h");
}
}
