#include "content/toml_tree.hpp"

#include <doctest/doctest.h>

#include <string>

using namespace holdpin;

namespace {

std::string fault_of(const std::string& text) {
    Faults faults;
    const auto root = parse_toml("x.toml", text, faults);
    CHECK(root.has_value() == faults.empty());
    return faults.empty() ? "" : faults.front().sentence();
}

}  // namespace

TEST_CASE("every kind of value is kept with its place") {
    Faults faults;
    const auto root = parse_toml("x.toml",
                                 "a = \"text\"\nb = 7\nc = 1.5\nd = true\ne = 2027-03-01\n"
                                 "f = [1, 2]\ng = { h = 1 }\ni = 07:32:00\n",
                                 faults);
    REQUIRE(root);
    CHECK(root->find("a")->text == "text");
    CHECK(root->find("b")->integer == 7);
    CHECK(root->find("c")->number == 1.5);
    CHECK(root->find("d")->truth);
    CHECK(root->find("e")->date == Date{2027, 3, 1});
    CHECK(root->find("f")->items.size() == 2);
    CHECK(root->find("g")->find("h")->line == 7);
    CHECK(root->find("g")->find("h")->column == 11);
    CHECK(root->find("i")->kind == Node::Kind::other);
    CHECK(root->find("z") == nullptr);
}

TEST_CASE("text that is no TOML is one fault with its place") {
    CHECK(fault_of("a = 1\nb = ").starts_with("x.toml:2:"));
    CHECK(fault_of("a = 1\na = 2\n").starts_with("x.toml:2:"));
    CHECK_FALSE(fault_of("a = \"\xff\"").empty());
    CHECK_FALSE(fault_of(std::string("a = \"\0\"", 7)).empty());
    CHECK(fault_of("").empty());
}

TEST_CASE("large, long and deep input is refused before it can do harm") {
    CHECK(fault_of(std::string(kFileBytesMax + 1, '\n')) ==
          "x.toml: the file is larger than 1 MiB; split it");
    CHECK(fault_of("a = 1\nb = \"" + std::string(kLineBytesMax, 'x') + "\"")
              .starts_with("x.toml:2:1: this line is longer"));
    std::string dotted = "a";
    for (int i = 0; i < kNodeDepthMax; ++i) dotted += ".a";
    CHECK(fault_of(dotted + " = 1").find("nested too deep") != std::string::npos);
    std::string deepest = "a";
    while (deepest.size() + 10 < kLineBytesMax) deepest += ".a";
    CHECK(fault_of("[" + deepest + "]\n" + deepest + " = 1").find("nested too deep") !=
          std::string::npos);
    CHECK_FALSE(fault_of("a = " + std::string(kLineBytesMax / 2, '[')).empty());
}

TEST_CASE("a letter beyond ASCII outside quotation marks is a fault with its line") {
    for (const char* text : {"\u00e9 = 1\n", "a\u00e9 = 1\n", "a = \u00e9\n", "a = 1 \u0115\n",
                             "[\u00fc]\n", "\ua000 = 1\n", "a = \"x\\\"\" \u00e9\n",
                             "a = -\"\u00f3\"\n", "a = 1'\u00f3'\n", "a = {b = +\"\u00f3\"}\n"}) {
        CAPTURE(text);
        CHECK(fault_of(text).starts_with("x.toml:1:1: this is no TOML"));
    }
    CHECK(fault_of("a = 1\n\n\u00e9 = 1").starts_with("x.toml:3:1:"));
    for (const char* text : {"a = \"\u00e9\" # \u00e9\n", "a = '\u00e9'\n", "\"\u00e9\" = 1\n",
                             "a = \"\"\"\n\u00e9 \" '\n\"\"\"\n", "a = \'\'\'\n\u00e9 \\\'\'\'\n",
                             "\ufeffa = 1\n", "\ufeff\"\u00e9\" = 1\n", "a.\"\u00e9\" = 1\n",
                             "a = [\"\u00e9\",'\u00e9']\n", "a = {\"\u00e9\"=\"\u00e9\"}\n",
                             "[\"\u00e9\"]\n"}) {
        CAPTURE(text);
        CHECK(fault_of(text).empty());
    }
}
