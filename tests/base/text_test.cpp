#include "base/text.hpp"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <filesystem>

#include "support/temp_dir.hpp"

using namespace holdpin;

namespace fs = std::filesystem;

namespace {

}  // namespace

TEST_CASE("bytes and their hexadecimal text come back from each other") {
    Bytes all;
    for (int i = 0; i < 256; ++i) all.push_back(static_cast<std::uint8_t>(i));
    CHECK(unhex(hex(all)).value_or({}) == all);
    CHECK(hex(Bytes{0x00, 0x0f, 0xa0, 0xff}) == "000fa0ff");
    CHECK(unhex("0FaB").value_or({}) == Bytes{0x0f, 0xab});
    CHECK(unhex("").value_or({1}).empty());
    for (const char* text : {"0", "0fa", "0g", "g0", "0f 1", "zz00"}) {
        INFO(std::string(text));
        CHECK_FALSE(unhex(text).ok());
    }
}

TEST_CASE("blanks are cut off at both ends only") {
    CHECK(trimmed(" \t a b \r\n") == "a b");
    CHECK(trimmed("a") == "a");
    CHECK(trimmed(" \n ").empty());
    CHECK(trimmed("").empty());
}

TEST_CASE("a text that is split and joined again is the same text") {
    CHECK(split("a,b,,c", ',') == std::vector<std::string>{"a", "b", "", "c"});
    CHECK(split("", ',') == std::vector<std::string>{""});
    CHECK(split(",", ',') == std::vector<std::string>{"", ""});
    for (const char* text : {"", ",", "a", "a,b", ",a,,b,"}) {
        CHECK(joined(split(text, ','), ",") == text);
    }
    CHECK(joined({}, ", ").empty());
}

TEST_CASE("letters are counted as code points, and a damaged byte counts one") {
    CHECK(code_points("") == 0);
    CHECK(code_points("abc") == 3);
    CHECK(code_points("ñandú") == 5);
    CHECK(code_points("\u202f€\U0001F600") == 3);
    CHECK(code_points("\x80") == 1);
    CHECK(code_points("a\xBF\xBF") == 3);
    CHECK(code_points("\xC3") == 1);
    CHECK(code_points("\xE2\x82") == 1);  // a letter cut short
    CHECK(code_points("\xFF\xFE") == 2);
    CHECK(code_points("\xC3\xA9\xA9") == 2);
}

TEST_CASE("the last letter is taken away whole") {
    std::string text = "aé€\U0001F600";
    drop_last_code_point(text);
    CHECK(text == "aé€");
    drop_last_code_point(text);
    CHECK(text == "aé");
    drop_last_code_point(text);
    CHECK(text == "a");
    drop_last_code_point(text);
    CHECK(text.empty());
    drop_last_code_point(text);
    CHECK(text.empty());
}

TEST_CASE("a file is read as it was written, whatever bytes it holds") {
    const TempDir scratch;
    std::string bytes;
    for (int i = 0; i < 200'000; ++i) bytes += static_cast<char>(i * 31 % 256);
    REQUIRE(write_file((scratch / "a"), bytes).ok());
    CHECK(read_file((scratch / "a")).value_or("") == bytes);
    REQUIRE(write_file((scratch / "a"), "").ok());
    CHECK(read_file((scratch / "a")).value_or("?").empty());
    CHECK_FALSE(fs::exists((scratch / "a.part")));
}

TEST_CASE("a file is made with the rights asked for") {
    const TempDir scratch;
    REQUIRE(write_file((scratch / "key"), "k", 0600).ok());
    struct stat status {};
    REQUIRE(::stat((scratch / "key").c_str(), &status) == 0);
    CHECK((status.st_mode & 0777U) == 0600U);
}

TEST_CASE("a file that is not there, or cannot be put in place, is an error that names it") {
    const TempDir scratch;
    const auto absent = read_file((scratch / "none"));
    REQUIRE_FALSE(absent.ok());
    CHECK(absent.error().kind == ErrorKind::absent);
    CHECK(absent.error().where == (scratch / "none"));

    CHECK_FALSE(write_file((scratch / "no/folder/a"), "x").ok());
    fs::create_directory((scratch / "folder"));
    CHECK_FALSE(write_file((scratch / "folder"), "x").ok());
    CHECK(fs::is_directory((scratch / "folder")));
    CHECK_FALSE(read_file((scratch / "folder")).ok());
}

TEST_CASE("tenths are written with one decimal and read back") {
    CHECK(tenths_text(12'846) == "1284.6");
    CHECK(tenths_text(0) == "0.0");
    for (const std::int64_t tenths : {0, 1, 9, 10, 12'846, 999'999'999}) {
        CHECK(parse_tenths(tenths_text(tenths)).value_or(-1) == tenths);
    }
    CHECK(parse_tenths("1284").value_or(-1) == 12'840);
    CHECK(parse_tenths("007").value_or(-1) == 70);
}

TEST_CASE("what is no plain number with at most one decimal is refused") {
    for (const char* text : {"", ".", ".5", "5.", "1.23", "-1", "-0", "+1", "1,5", " 1", "1 ",
                             "1e3", "100000000", "99999999999999999999", "1.x", "0x10", "1.2.3"}) {
        INFO(std::string(text));
        CHECK_FALSE(parse_tenths(text).ok());
    }
}

TEST_CASE("thousands are set apart before the decimal point only") {
    CHECK(with_thousands("12846.5") == "12\u202f846.5");
    CHECK(with_thousands("1284675") == "1\u202f284\u202f675");
    CHECK(with_thousands("999") == "999");
    CHECK(with_thousands("1000") == "1\u202f000");
    CHECK(with_thousands("0.1234") == "0.1234");
    CHECK(with_thousands("").empty());
}

TEST_CASE("the nearest known word is at most two letters away") {
    const std::vector<std::string> known{"reading", "readings", "heading", "outcome"};
    CHECK(nearest("readings", known) == "readings");
    CHECK(nearest("readin", known) == "reading");
    CHECK(nearest("outcmoe", known) == "outcome");
    CHECK(nearest("utcom", known) == "outcome");
    CHECK(nearest("utco", known).empty());
    CHECK(nearest("zzz", known).empty());
    CHECK(nearest("reading", {}).empty());
}
