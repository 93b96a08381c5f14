// With a display only: an Xvfb is enough. Where there is none these tests say so and pass.
#include <doctest/doctest.h>

#include <chrono>
#include <cstdlib>
#include <memory>
#include <thread>
#include <vector>

#include "kiosk/driver.hpp"
#include "kiosk/window.hpp"
#include "stages.hpp"

using namespace holdpin;

namespace {

std::unique_ptr<WindowGlass> open_window(bool hidden) {
    WindowOptions options;
    options.width = 1280;
    options.height = 800;
    options.hidden = hidden;
    if (std::getenv("DISPLAY") == nullptr) {
        MESSAGE("not tested: there is no display");
        return nullptr;
    }
    // A virtual display starts anew when its last window is closed, and is away for a moment.
    for (int i = 0; i < 20; ++i) {
        Result<std::unique_ptr<WindowGlass>> opened = WindowGlass::open(options);
        if (opened) {
            return std::move(opened).value();
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
    }
    FAIL("the window cannot be opened");
    return nullptr;
}

}  // namespace

TEST_SUITE("kiosk screen") {
TEST_CASE("a page that nobody touches is drawn a few times and then not at all") {
    const std::unique_ptr<WindowGlass> glass = open_window(false);
    if (glass == nullptr) {
        return;
    }
    holdpin::test::OnePage stage(holdpin::test::list_page(20));
    const RealClock clock;
    const std::int64_t start = clock.mono_ms();
    std::uint64_t settled = 0;
    show_in(*glass, stage, clock, [&] {
        if (settled == 0 && clock.mono_ms() - start > 1000) {
            settled = glass->frames_drawn();
        }
        return clock.mono_ms() - start > 3500 ? Beat::stop : Beat::nothing;
    });
    CHECK(settled > 0);
    CHECK(settled < 40);
    CHECK(glass->frames_drawn() == settled);
    CHECK(glass->frames_shown() <= settled);
}

TEST_CASE("the same page drawn twice gives the same picture, byte for byte") {
    std::vector<Raster> pictures;
    for (int i = 0; i < 2; ++i) {
        const std::unique_ptr<WindowGlass> glass = open_window(true);
        if (glass == nullptr) {
            return;
        }
        holdpin::test::OnePage stage(holdpin::test::list_page(3));
        HandClock clock(1'700'000'000'000);
        Driver driver(*glass, stage, clock);
        Result<Raster> pixels = glass->pixels();
        REQUIRE(pixels.ok());
        pictures.push_back(std::move(pixels).value());
    }
    CHECK(pictures[0].width == 1280);
    CHECK(pictures[0].rgba == pictures[1].rgba);
    const std::vector<std::uint8_t> ground = {0xEF, 0xED, 0xE6, 0xFF};
    const std::size_t left_edge = std::size_t{400} * 1280 * 4;
    CHECK(std::vector<std::uint8_t>(pictures[0].rgba.begin() + left_edge,
                                    pictures[0].rgba.begin() + left_edge + 4) == ground);
}

TEST_CASE("a driven window acts like the glass of the tests") {
    const std::unique_ptr<WindowGlass> glass = open_window(true);
    if (glass == nullptr) {
        return;
    }
    holdpin::test::OnePage stage(holdpin::test::list_page(20));
    HandClock clock(1'700'000'000'000);
    Driver driver(*glass, stage, clock);
    REQUIRE(driver.tap("Machine 17").ok());
    REQUIRE(driver.tap("next").ok());
    CHECK(stage.did() == "row-17\nnext");
}
}
