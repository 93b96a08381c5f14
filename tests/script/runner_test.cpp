// Scripts on the example site, on paper. What the shifts themselves lead to is in tests/scenarios/.
#include "script/runner.hpp"

#include <doctest/doctest.h>

#include <unistd.h>

#include <filesystem>

#include "base/text.hpp"
#include "cli/script_site.hpp"

using namespace holdpin;

namespace {

RunReport rehearse(const std::string& acts) {
    const auto path = std::filesystem::temp_directory_path() /
                      ("holdpin-script-" + std::to_string(::getpid()) + ".toml");
    const std::string text = "start = \"2026-11-25T05:40\"\n" + acts;
    REQUIRE(write_file(path.string(), text).ok());
    auto opened = open_script(path.string(), resolved({}));
    std::filesystem::remove(path);
    REQUIRE_MESSAGE(opened.ok(), opened.error().sentence());
    opened.value()->script.file = "s.toml";
    PaperHands hands(opened.value()->site->world());
    return Runner(opened.value()->site->world(), opened.value()->clock, hands)
        .run(opened.value()->script);
}

}  // namespace

TEST_CASE("a script that goes as expected reports its acts and no failure") {
    const RunReport report = rehearse(
        "[[act]]\nexpect_page = \"floor\"\n[[act]]\nexpect = \"SW-14\"\n"
        "[[act]]\nexpect = \"05:40\"\n[[act]]\nwait = \"00:20\"\n[[act]]\nexpect = \"06:00\"\n");
    CHECK(report.failure == "");
    CHECK(report.acts == 5);
    CHECK(report.entries == 0);
}

TEST_CASE("a failure names file, line and act, what was expected and what stands there") {
    const RunReport report = rehearse("[[act]]\nexpect = \"SW-14\"\n[[act]]\nexpect = \"SW-99\"\n");
    CHECK(report.acts == 1);
    CHECK(report.failure.starts_with("s.toml:5: act 2 (expect): expected \"SW-99\""));
    CHECK(report.failure.find("the page \"floor\" shows:") != std::string::npos);
}

TEST_CASE("a target that is not there fails, by its label or its id") {
    CHECK(rehearse("[[act]]\ntap = \"help\"\n").ok());
    const RunReport report = rehearse("[[act]]\ntap = \"no such thing\"\n");
    CHECK(report.failure.find("there is no \"no such thing\" to tap") != std::string::npos);
}

TEST_CASE("signing on leaves the floor with a person on it") {
    const RunReport report = rehearse(
        "[[act]]\nsign_on = \"H-1042\"\n[[act]]\nledger = \"signed-on\"\n"
        "[[act]]\nno_ledger = \"release-given\"\n[[act]]\nexpect = \"R. Okafor-Lind\"\n");
    CHECK(report.failure == "");
    CHECK(report.entries >= 1);
}

TEST_CASE("after a power cut nobody is signed on and the entries are still there") {
    const RunReport report = rehearse(
        "[[act]]\nsign_on = \"H-1042\"\n[[act]]\npower_cut = true\n"
        "[[act]]\nexpect_page = \"floor\"\n[[act]]\nexpect_not = \"R. Okafor-Lind\"\n");
    CHECK(report.failure == "");
}
