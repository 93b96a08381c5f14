// Other programs, run apart. What each is given to do is what a damaged file might make a real one
// do: hang, eat memory, fill the disk, die.
#include "devices/bounded_run.hpp"

#include <doctest/doctest.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <memory>

#include "base/text.hpp"
#include "support/temp_dir.hpp"

using namespace holdpin;

namespace {

BoundedRun shell(const std::string& script) {
    BoundedRun run;
    run.words = {"sh", "-c", script};
    return run;
}

}  // namespace

TEST_CASE("what a program says goes into the file and nowhere else") {
    const TempDir folder;
    BoundedRun run = shell("echo said; echo complained >&2");
    run.output = (folder / "out");
    REQUIRE(run_bounded(run).ok());
    CHECK(read_file(run.output).value() == "said\n");
}

TEST_CASE("words reach the program as they are, whatever stands in them") {
    const TempDir folder;
    BoundedRun run;
    run.words = {"printf", "%s", "$(touch x); \"'\n*"};
    run.output = (folder / "out");
    REQUIRE(run_bounded(run).ok());
    CHECK(read_file(run.output).value() == "$(touch x); \"'\n*");
}

TEST_CASE("a program that is not there, fails or dies is an error that says so") {
    BoundedRun none;
    none.words = {"holdpin-has-no-such-program"};
    CHECK(run_bounded(none).error().kind == ErrorKind::absent);
    CHECK(run_bounded(shell("exit 3")).error().what == "it ended with code 3");
    CHECK(run_bounded(shell("kill -SEGV $$")).error().what.find("signal") != std::string::npos);
    CHECK(run_bounded({}).error().kind == ErrorKind::invalid);
}

TEST_CASE("a program that hangs is ended in its time, with all that it has started") {
    const TempDir folder;
    const std::string mark = (folder / "late");
    BoundedRun run = shell("(sleep 2; touch " + mark + ") & sleep 60");
    run.time_ms = 200;
    const auto before = std::chrono::steady_clock::now();
    CHECK(run_bounded(run).error().what == "it took longer than 200 ms");
    CHECK(std::chrono::steady_clock::now() - before < std::chrono::seconds(2));
    CHECK(run_bounded(shell("sleep 2.2")).ok());
    CHECK_FALSE(std::filesystem::exists(mark));
}

TEST_CASE("what a program leaves behind when it ends is ended too") {
    const TempDir folder;
    const std::string mark = (folder / "late");
    CHECK(run_bounded(shell("(sleep 1; touch " + mark + ") &")).ok());
    CHECK(run_bounded(shell("sleep 1.2")).ok());
    CHECK_FALSE(std::filesystem::exists(mark));
}

TEST_CASE("memory and files of a program end where they are told to") {
    const TempDir folder;
    BoundedRun eater;
    eater.words = {"python3", "-c", "import time; time.sleep(0.1); b = bytearray(1 << 30)"};
    eater.memory_bytes = 256ULL << 20U;
    CHECK_FALSE(run_bounded(eater).ok());
    BoundedRun filler = shell("sleep 0.1; head -c 4000000 /dev/zero > " + (folder / "big"));
    filler.file_bytes = 1'000'000;
    CHECK_FALSE(run_bounded(filler).ok());
    CHECK(std::filesystem::file_size((folder / "big")) <= 1'000'000);
}

TEST_CASE("no open file of the kiosk is open in the program") {
    const TempDir folder;
    REQUIRE(write_file((folder / "secret"), "pepper").ok());
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> open(
        std::fopen(((folder / "secret")).c_str(), "r"), &std::fclose);
    BoundedRun run = shell("ls -l /proc/self/fd");
    run.output = (folder / "out");
    REQUIRE(run_bounded(run).ok());
    CHECK(read_file(run.output).value().find("secret") == std::string::npos);
}
