#include "rules/holds.hpp"

#include <doctest/doctest.h>

#include <set>

#include "base/text.hpp"
#include "rules/overrides.hpp"

using namespace holdpin;

namespace {

std::string hold_table() {
    auto text = read_file(std::string(HOLDPIN_TEST_SOURCE_DIR) + "/content/rulesets/holds.toml");
    REQUIRE(text.ok());
    return std::move(text).value();
}

// The row of one code: from its [[hold]] to the next.
std::string row_of(const std::string& table, HoldCode code) {
    const auto at = table.find("code = \"" + std::string(name_of(code)) + "\"");
    if (at == std::string::npos) return "";
    return table.substr(at, table.find("[[hold]]", at) - at);
}

}  // namespace

TEST_CASE("every code has a name of its own, and the name gives the code back") {
    std::set<std::string_view> names;
    for (std::size_t i = 0; i < kHoldCount; ++i) {
        const auto code = static_cast<HoldCode>(i);
        CHECK(index_of(code) == i);
        CHECK(hold_named(name_of(code)) == code);
        CHECK(names.insert(name_of(code)).second);
    }
}

TEST_CASE("a name that is none gives no code") {
    for (const char* name : {"", "none", "round_missing", "Round-missing", "round-missing "}) {
        CHECK_FALSE(hold_named(name).has_value());
    }
}

TEST_CASE("the hold table of the pack has a row for every code and no other") {
    const std::string table = hold_table();
    std::size_t rows = 0;
    for (auto at = table.find("[[hold]]"); at != std::string::npos;
         at = table.find("[[hold]]", at + 1)) {
        ++rows;
    }
    CHECK(rows == kHoldCount);
    for (std::size_t i = 0; i < kHoldCount; ++i) {
        INFO(name_of(static_cast<HoldCode>(i)));
        CHECK_FALSE(row_of(table, static_cast<HoldCode>(i)).empty());
    }
}

TEST_CASE("the hold table offers an override only where there can ever be one") {
    const std::string table = hold_table();
    for (std::size_t i = 0; i < kHoldCount; ++i) {
        const auto code = static_cast<HoldCode>(i);
        INFO(name_of(code));
        const bool offered = row_of(table, code).find("overridable = true") != std::string::npos;
        CHECK((!offered || can_ever_override(code)));
    }
}

TEST_CASE("a set has a code once, however often it holds") {
    CHECK(set_of({}).none());
    Hold stop;
    stop.code = HoldCode::stop_finding;
    Hold disk;
    disk.code = HoldCode::disk_low;
    const HoldSet set = set_of({stop, disk, stop});
    CHECK(set.count() == 2);
    CHECK(set[index_of(HoldCode::stop_finding)]);
    CHECK(set[index_of(HoldCode::disk_low)]);
}
