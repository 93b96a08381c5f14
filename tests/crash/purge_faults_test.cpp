// The disk fails at every call of a purge: all of it is done afterwards, or nothing.
#include <doctest/doctest.h>


#include "cli/new_site.hpp"
#include "crash/power_disk.hpp"
#include "ledger/check.hpp"
#include "records/fold.hpp"
#include "records/retention.hpp"
#include "support/extent.hpp"

using namespace holdpin;

namespace {

constexpr std::int64_t kStart = 1'795'606'800'000;
constexpr std::int64_t kYears = 3 * 366LL * 86'400'000;

struct PurgedSite {
    PowerDisk disk;
    Loaded loaded;
    KioskKey key = kiosk_key_of(Bytes(32, 7)).value();
    std::map<std::string, std::string> image;
    std::uint64_t size = 0;

    PurgedSite() {
        const ContentDirs dirs = resolved({});
        loaded = load_content(dirs.content, dirs.assets, dirs.content + "/sites/example");
        REQUIRE(loaded.ok());
        HandClock clock(kStart);
        SeededRandom random(3);
        {
            auto site = open(clock, random);
            REQUIRE(site.ok());
            REQUIRE(enter_new_site(*site.value(), key).ok());
        }
        {
            auto site = open(clock, random);
            REQUIRE(site.ok());
            for (int i = 0; i < 100; ++i) {
                const char* kind = i % 3 == 0 ? "air-read" : "signed-on";
                REQUIRE(site.value()->book->enter(
                    Fact{kind, {"p-brandt"}, "", 0, {{"room", "dock-hall"}, {"ppm", "0"}}}).ok());
            }
            REQUIRE(site.value()->sealer->seal().ok());
            size = site.value()->ledger->size();
        }
        image = disk.image();
    }
    Result<std::unique_ptr<OpenSite>> open(Clock& clock, Random& random) {
        return assemble(loaded, {"power-disk.db", key, Bytes(32, 9), PinCost::least, "",
                                 PowerDisk::name()},
                        clock, random);
    }
    // Whether the purge said that it was done.
    bool run(int nth, DiskFault fault) {
        disk.put(image);
        HandClock clock(kStart + kYears);
        SeededRandom random(5);
        const auto site = open(clock, random);
        REQUIRE(site.ok());
        const Date as_of = site.value()->zone.local(clock.now_ms()).date;
        const auto plan = plan_purge(*site.value()->book, loaded.content.pack, site.value()->zone,
                                     as_of);
        REQUIRE(plan.ok());
        REQUIRE(plan.value().bodies.count() > 60);
        size = site.value()->ledger->size();
        disk.fail_at(nth, fault, static_cast<std::uint64_t>(nth));
        return purge(*site.value()->book, plan.value()).ok();
    }
    // Whether the bodies are gone.
    bool inspect() {
        disk.mend();
        HandClock clock(kStart + kYears + 1000);
        SeededRandom random(17);
        const auto opened = open(clock, random);
        if (!opened) FAIL(opened.error().sentence());
        OpenSite& site = *opened.value();
        const auto report = check_ledger(*site.db, {key.public_key, {}, {}});
        REQUIRE(report.ok());
        CHECK_MESSAGE(report.value().ledger.fault == LedgerFault::none,
                      report.value().ledger.what);
        std::size_t without = 0;
        bool said = false;
        REQUIRE(each_stored(*site.db, [&](const StoredEntry& row) -> Result<void> {
            without += row.body.empty() ? 1U : 0U;
            said = said || row.body.find(R"("kind":"purged")") != std::string::npos;
            return {};
        }).ok());
        CHECK(said == (without > 0));
        if (said) CHECK(without > 60);
        const std::string before = state_digest(*site.db).value();
        REQUIRE(site.book->rebuild().ok());
        CHECK(state_digest(*site.db).value() == before);
        return said;
    }
};

}  // namespace

TEST_CASE("a disk that fails within a purge leaves all of it or nothing") {
    PurgedSite site;
    CHECK(site.run(1'000'000, DiskFault::io_error));
    const int calls = site.disk.calls();
    CHECK(site.inspect());
    const int step = one_of(11);
    int gone = 0;
    int runs = 0;
    for (const DiskFault fault :
         {DiskFault::power_cut, DiskFault::torn, DiskFault::io_error, DiskFault::full}) {
        for (int nth = 1; nth <= calls; nth += step) {
            CAPTURE(nth);
            const bool done = site.run(nth, fault);
            const bool is_gone = site.inspect();
            if (done) CHECK(is_gone);
            gone += is_gone ? 1 : 0;
            ++runs;
        }
    }
    MESSAGE(runs << " runs, in " << gone << " the purge was done");
    CHECK(gone > 0);
    CHECK(gone < runs);
}
