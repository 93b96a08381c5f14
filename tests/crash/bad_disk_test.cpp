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
    std::string copy_in() const { return "cp -r " + data + " " + disk + "/data\n"; }

    std::string disk = temp / "disk";
    bool permitted = false;
};

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
        small.disk, small.copy_in() + "dd if=/dev/zero of=" + small.disk +
                        "/rest bs=4k 2>/dev/null || true\n" + small.drive() + "rm " + small.disk +
                        "/rest\n" + small.check());
    CHECK_MESSAGE(says(ran, "The disk of this kiosk is full"), ran.said);
    const Ran after = on_small_disk(
        small.disk, small.copy_in() + "dd if=/dev/zero of=" + small.disk +
                        "/rest bs=4k 2>/dev/null || true\n(" + small.drive() + ") || true\nrm " +
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
