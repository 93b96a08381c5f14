#include "cli/binder_worker.hpp"

#include <doctest/doctest.h>

#include <chrono>
#include <condition_variable>
#include <filesystem>

#include "example_site.hpp"

using namespace holdpin;
namespace fs = std::filesystem;

namespace {

// Writes one file, when it is let.
struct Maker {
    std::mutex guard;
    std::condition_variable changed;
    bool may_end = true;
    std::uint64_t entries = 0;

    BinderMaker maker() {
        return [this](const BinderSources& sources, const BinderScope&, const std::string& out,
                      const BinderProgress& progress) -> Result<BinderSummary> {
            entries = sources.ledger.size();
            std::unique_lock lock(guard);
            while (!may_end && progress(1, 4)) changed.wait_for(lock, std::chrono::milliseconds(1));
            if (!progress(2, 4)) return Error{ErrorKind::refused, "cancelled", "", ""};
            TRY(write_file(out, "a binder"));
            return BinderSummary{};
        };
    }
};

struct WorkerBench {
    HandClock clock{1795608300000};
    SeededRandom random{7};
    std::unique_ptr<OpenSite> site;
    NewDir folder = NewDir::beside((fs::temp_directory_path() / "holdpin-bench").string()).value();
    Maker maker;
    std::unique_ptr<BinderWorker> worker;

    WorkerBench() {
        const ContentDirs dirs = resolved({});
        Loaded loaded = load_content(dirs.content, dirs.assets, dirs.content + "/sites/example");
        REQUIRE(loaded.ok());
        auto opened = in_memory_site(std::move(loaded), clock, random);
        REQUIRE(opened.ok());
        site = std::move(opened).value();
        worker = std::make_unique<BinderWorker>(
            *site, BinderWorkerOptions{{folder.path()}, false, 0, maker.maker()});
    }
    BinderState ended() {
        while (worker->state().phase == BinderPhase::running) std::this_thread::yield();
        return worker->state();
    }
};

}  // namespace

TEST_CASE("a worker makes the binder of a copy, sealed, and says path and code") {
    WorkerBench bench;
    REQUIRE(bench.worker->places().size() == 1);
    REQUIRE(bench.worker->start({{}, {}, bench.folder.path()}).ok());
    const BinderState state = bench.ended();
    CHECK(state.phase == BinderPhase::done);
    CHECK(fs::exists(state.path));
    CHECK(state.path.ends_with("holdpin-ash-lane-2026-11-25-060500.zip"));
    CHECK(state.sealed == bench.site->ledger->size());
    CHECK(bench.maker.entries == state.sealed);
    CHECK(state.witness.size() == 9);
    CHECK(newest_sealed_size(*bench.site->db).value() == state.sealed);
    bench.worker->forget();
    CHECK(bench.worker->state().phase == BinderPhase::idle);
}

TEST_CASE("a cancelled binder leaves nothing, and a second one waits for the first") {
    WorkerBench bench;
    bench.maker.may_end = false;
    REQUIRE(bench.worker->start({{}, {}, bench.folder.path()}).ok());
    CHECK(bench.worker->start({{}, {}, bench.folder.path()}).error().kind == ErrorKind::refused);
    bench.worker->cancel();
    CHECK(bench.ended().phase == BinderPhase::cancelled);
    CHECK(fs::is_empty(bench.folder.path()));
}

TEST_CASE("a place that is not offered takes no binder") {
    WorkerBench bench;
    CHECK(bench.worker->start({{}, {}, "/etc"}).error().kind == ErrorKind::absent);
    CHECK(bench.worker->state().phase == BinderPhase::idle);
    // The mount folder of a stick that is not plugged in: nothing comes into being there.
    fs::remove_all(bench.folder.path());
    const auto unplugged = bench.worker->start({{}, {}, bench.folder.path()});
    REQUIRE_FALSE(unplugged.ok());
    CHECK(unplugged.error().what == "this folder is not there");
    CHECK_FALSE(fs::exists(bench.folder.path()));
}

TEST_CASE("writable drives under the folders for removable media count as sticks") {
    // Lines as proc(5) gives them.
    const auto sticks = mounted_sticks(
        "/dev/sda1 / ext4 rw,relatime 0 0\n"
        "/dev/sdb1 /media/kiosk/AUDIT\\0402026 vfat rw,nosuid 0 0\n"
        "/dev/sdc1 /run/media/kiosk/OLD iso9660 ro,nosuid 0 0\n"
        "tmpfs /run tmpfs rw 0 0\n");
    CHECK(sticks == std::vector<std::string>{"/media/kiosk/AUDIT 2026"});
}
