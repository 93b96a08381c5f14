// Real file systems that are really full, or that nobody may write: the program says so and what to
// do. They are mounted in a name space of their own; where the system does not permit that, a test
// says that it did not run.
#include <doctest/doctest.h>

#include "cli/example_site.hpp"
#include "cli/run_program.hpp"

using namespace holdpin;

namespace {

// Shell lines in a name space in which a small file system is mounted on `disk`.
Ran on_small_disk(const std::string& disk, const std::string& lines) {
    const std::string file = disk + ".sh";
    REQUIRE(write_file(file, "set -e\nmount -t tmpfs -o size=6m none " + disk + "\n" + lines).ok());
    return run_shell("unshare -rm sh " + file + " 2>&1");
}

struct SmallDisk : ExampleSite {
    SmallDisk() {
        clock.set_wall(kExampleStart - 86'400'000);
        REQUIRE(init().ok());
        std::filesystem::create_directories(disk);
        permitted = on_small_disk(disk, "true\n").code == 0;
        if (!permitted) MESSAGE("no file system may be mounted here; this test did not run");
    }
    std::string drive() const {
        return std::string(HOLDPIN_PROGRAM) + " drive --without-display --tell " +
               HOLDPIN_TEST_SOURCE_DIR + "/tests/crash/shift.toml --data " + disk +
               "/data --seal-copy " + (temp / "copies") + "\n";
    }
    std::string check() const {
        return std::string(HOLDPIN_PROGRAM) + " ledger check --data " + disk +
               "/data --seal-copy " + (temp / "copies") + "\n";
    }
    // Acts on the data of the disk as one walks them at the screen; `settings` stand before them.
    std::string acts(const std::string& settings, const std::string& lines) const {
        static int minute = 10;  // each a little later than those before
        const std::string at = "05:" + std::to_string(++minute);
        const std::string file = temp / (at + ".toml");
        REQUIRE(write_file(file, "start = \"2026-11-25T" + at + "\"\nsize = [800, 1280]\n" +
                                     settings + lines)
                    .ok());
        return std::string(HOLDPIN_PROGRAM) + " drive --without-display --audit " + file +
               " --data " + disk + "/data --seal-copy " + (temp / "copies") + "\n";
    }
    std::string fill() const {
        return "dd if=/dev/zero of=" + disk + "/rest bs=4k 2>/dev/null || true\n";
    }
    std::string copy_in() const { return "cp -r " + data + " " + disk + "/data\n"; }

    std::string disk = temp / "disk";
    bool permitted = false;
};

std::string acts_of(const std::vector<std::string>& taps) {
    std::string lines;
    for (const std::string& tap : taps) lines += "[[act]]\ntap = \"" + tap + "\"\n";
    return lines;
}

std::string expects(const std::string& words) {
    return "[[act]]\nexpect = \"" + words + "\"\n";
}

bool says(const Ran& ran, const std::string& words) {
    return ran.said.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("with little room left no machine is handed over, and the reason stands there") {
    const SmallDisk small;
    if (!small.permitted) return;
    const Ran ran = on_small_disk(small.disk, small.copy_in() + small.drive());
    CHECK(ran.code == 1);
    CHECK_MESSAGE(says(ran, "Storage nearly full"), ran.said);
    CHECK_FALSE(says(ran, "Handed to"));
}

TEST_CASE("on a disk that is really full the program says so, and what was stored holds") {
    const SmallDisk small;
    if (!small.permitted) return;
    // The disk is filled to its last page while the shift is under way.
    const Ran ran = on_small_disk(
        small.disk, small.copy_in() + small.fill() + small.drive() + "rm " + small.disk +
                        "/rest\n" + small.check());
    CHECK_MESSAGE(says(ran, "The disk of this kiosk is full"), ran.said);
    const Ran after = on_small_disk(
        small.disk, small.copy_in() + small.fill() + "(" + small.drive() + ") || true\nrm " +
                        small.disk + "/rest\n" + small.check());
    CHECK(after.code == 0);
    CHECK_MESSAGE(says(after, "entries are as they were written"), after.said);
}

TEST_CASE("on a disk that nobody may write the program says so") {
    const SmallDisk small;
    if (!small.permitted) return;
    const Ran ran = on_small_disk(
        small.disk, small.copy_in() + "mount -o remount,ro " + small.disk + "\n" + small.drive());
    CHECK(ran.code == 1);
    CHECK_MESSAGE(says(ran, "can only be read, not written"), ran.said);
}

TEST_CASE("what cannot be stored on a full disk is to be written on paper, in either language") {
    const SmallDisk small;
    if (!small.permitted) return;
    const std::string report = acts_of({"help", "report", "report:SW-14"});
    const std::string full = small.copy_in() + small.fill();
    const Ran english = on_small_disk(
        small.disk, full + small.acts("", report + expects("Write it on paper") +
                                              expects("The disk of this kiosk is full") +
                                              acts_of({"help", "sheet:smell-of-gas"}) +
                                              expects("Walk upwind")));
    CHECK_MESSAGE(english.code == 0, english.said);
    const Ran spanish = on_small_disk(
        small.disk,
        full + small.acts("language = \"es\"\n", report + expects("Escríbalo en papel") +
                                                    expects("está lleno")));
    CHECK_MESSAGE(spanish.code == 0, spanish.said);
}

TEST_CASE("a tag that a full disk keeps from being printed is written by hand, the hold stands") {
    const std::string report = acts_of(
        {"help", "report", "report:SW-14", "what:brakes", "who:none", "main"});
    const std::string other = acts_of(
        {"help", "report", "report:SW-15", "what:brakes", "who:none", "main"});
    const std::string print = acts_of({"print"});
    for (const char* how : {"size=4k", "ro"}) {
        CAPTURE(std::string(how));
        const SmallDisk small;  // another site each time: a seal outside belongs to one
        if (!small.permitted) return;
        const std::string folder = small.disk + "/data/tags";
        const Ran ran = on_small_disk(
            small.disk,
            small.copy_in() + "mkdir " + folder + "\nmount -t tmpfs -o " + how + " none " + folder +
                "\n" + small.acts("", report + print + expects("on a card by hand") +
                                          expects("stays held")) +
                small.acts("language = \"es\"\n", other + print +
                                                    expects("a mano en una tarjeta")) +
                small.acts("", acts_of({"machine:SW-14"}) + expects("Brakes")) + small.check());
        CHECK_MESSAGE(ran.code == 0, ran.said);
        CHECK_MESSAGE(says(ran, "entries are as they were written"), ran.said);
    }
}
