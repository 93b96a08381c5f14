// Old data put back in place of new ones: noticed from the seal kept outside; where that was put
// back, too, from the code in the paper book. And what mends it: a backup.
#include <doctest/doctest.h>

#include "cli/example_site.hpp"
#include "cli/run_program.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

// A site with its seals outside, and a shift that is driven on it by the program.
struct KeptSite : ExampleSite {
    KeptSite() {
        clock.set_wall(kExampleStart - 86'400'000);
        REQUIRE(init().ok());
    }
    std::string words() const { return " --data " + data + " --seal-copy " + copies; }
    void work() {
        const std::string script =
            std::string(HOLDPIN_TEST_SOURCE_DIR) + "/tests/crash/shift.toml";
        const Ran ran = run("drive --without-display " + script + words(), true);
        CHECK_MESSAGE(ran.code == 0, ran.said);
    }
    bool releases() {
        const auto site = open_site(data, dirs, clock, random, PinCost::least, copies);
        REQUIRE(site.ok());
        return site.value()->world().ledger_holds();
    }
    void put_back(const std::string& from, const std::string& to) {
        fs::remove_all(to);
        fs::copy(from, to, fs::copy_options::recursive);
    }
    std::string code() {
        const Ran told = run("ledger witness" + words());
        REQUIRE(told.code == 0);
        return told.said.substr(0, told.said.find('\n'));
    }

    std::string copies = temp / "copies";
};

}  // namespace

TEST_CASE("old data that were put back are noticed from the seal kept outside") {
    KeptSite site;
    CHECK(site.releases());
    fs::copy(site.data, site.temp / "old", fs::copy_options::recursive);
    site.work();
    CHECK(site.releases());
    site.put_back(site.temp / "old", site.data);
    CHECK_FALSE(site.releases());
    const Ran checked = run("ledger check" + site.words());
    CHECK(checked.code == 1);
    CHECK(checked.said.find("the seal kept outside") != std::string::npos);
}

TEST_CASE("where the seal was put back too, the code in the book tells") {
    KeptSite site;
    CHECK(site.releases());
    fs::copy(site.data, site.temp / "old", fs::copy_options::recursive);
    fs::copy(site.copies, site.temp / "old-copies", fs::copy_options::recursive);
    const std::string before = site.code();
    site.work();
    const std::string after = site.code();
    REQUIRE(before != after);
    CHECK(run("ledger check --witness '" + after + "'" + site.words()).code == 0);
    site.put_back(site.temp / "old", site.data);
    site.put_back(site.temp / "old-copies", site.copies);
    // Nothing on this machine knows better.
    CHECK(site.releases());
    CHECK(run("ledger check" + site.words()).code == 0);
    for (const std::string& typed : {after, after.substr(0, 9)}) {
        const Ran checked = run("ledger check --witness '" + typed + "'" + site.words());
        CHECK(checked.code == 1);
        CHECK(checked.said.find("does not contain what the witness code") != std::string::npos);
    }
    CHECK(run("ledger check --witness '" + before + "'" + site.words()).code == 0);
}

TEST_CASE("after a doubt the newest backup is put back and machines are handed over again") {
    KeptSite site;
    fs::copy(site.data, site.temp / "old", fs::copy_options::recursive);
    site.work();
    const std::string stick = site.temp / "stick";
    const Ran backup = run("backup " + stick + site.words(), true);
    CHECK_MESSAGE(backup.code == 0, backup.said);
    site.put_back(site.temp / "old", site.data);
    CHECK_FALSE(site.releases());
    const std::string file = fs::directory_iterator(stick)->path().string();
    const Ran restored = run("restore " + file + site.words(), true);
    CHECK_MESSAGE(restored.code == 0, restored.said);
    CHECK(site.releases());
    CHECK(run("ledger check" + site.words()).code == 0);
}
