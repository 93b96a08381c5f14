#include "binder/csv.hpp"

#include <doctest/doctest.h>

using namespace holdpin;

namespace {

std::string table(const std::vector<std::vector<std::string>>& rows) {
    std::string text;
    for (const auto& row : rows) add_csv_row(text, row);
    return text;
}

}  // namespace

TEST_CASE("a cell with a comma, a quotation mark or a line break is quoted as RFC 4180 says") {
    // RFC 4180, section 2, rules 6 and 7.
    CHECK(table({{"a", "b"}, {"one, two", "say \"no\"\r\nnow"}}) ==
          "a,b\r\n\"one, two\",\"say \"\"no\"\"\r\nnow\"\r\n");
}

TEST_CASE("a text that a spreadsheet would run gets an apostrophe in front") {
    for (const char* cell : {"=1+1", "+1", "-x", "-1-1", "@SUM(A1)", "\tx", "\rx", "="}) {
        CAPTURE(cell);
        const auto rows = read_csv(table({{"a"}, {cell}}));
        REQUIRE(rows.ok());
        CHECK(rows.value()[1].cells[0] == "'" + std::string(cell));
    }
}

TEST_CASE("numbers and texts that begin otherwise stay as they are") {
    CHECK(table({{"-5", "a=b", "1284.6", "-0.5"}}) == "-5,a=b,1284.6,-0.5\r\n");
}

TEST_CASE("what was written is read back, and each row knows its line") {
    const auto rows = read_csv(table(
        {{"name", "words"}, {"Quispe-Morán", "two\r\nlines, \"quoted\""}, {"", "x"}}));
    REQUIRE(rows.ok());
    REQUIRE(rows.value().size() == 3);
    CHECK(rows.value()[1].cells == std::vector<std::string>{"Quispe-Morán",
                                                           "two\r\nlines, \"quoted\""});
    CHECK(rows.value()[1].line == 2);
    CHECK(rows.value()[2].line == 4);
    CHECK(rows.value()[2].cells.front().empty());
}

TEST_CASE("a byte order mark, plain line feeds and a missing last line end are taken") {
    const auto rows = read_csv("\xEF\xBB\xBFid,name\np-a,Ann\n\np-b,Ben");
    REQUIRE(rows.ok());
    REQUIRE(rows.value().size() == 3);
    CHECK(rows.value()[0].cells[0] == "id");
    CHECK(rows.value()[2].cells[1] == "Ben");
    CHECK(rows.value()[2].line == 4);
}

TEST_CASE("a quotation mark out of place is refused with its line") {
    const auto inside = read_csv("a,b\nc,d\"e\n");
    REQUIRE_FALSE(inside.ok());
    CHECK(inside.error().where == "line 2");
    const auto open = read_csv("a\n\"never closed\n\n");
    REQUIRE_FALSE(open.ok());
    CHECK(open.error().where == "line 2");
    CHECK_FALSE(read_csv("\"a\"b,c\n").ok());
}
