// What an unused kiosk draws: the floor of the example site stands on the display for ten seconds
// after it has settled. Its clock starts five seconds after a full minute, so that the minute on
// the strip, the one thing that changes by itself, stays the same.
#include <sys/resource.h>

#include "bench.hpp"
#include "flows/app.hpp"
#include "kiosk/illustrations.hpp"
#include "kiosk/window.hpp"

namespace holdpin::bench {
namespace {

// Runs like the real one, from a wall time of its own.
class ShiftedClock final : public Clock {
  public:
    explicit ShiftedClock(std::int64_t start_ms) : start_ms_(start_ms) {}
    std::int64_t now_ms() const override { return start_ms_ + real_.mono_ms() - begun_; }
    std::int64_t mono_ms() const override { return real_.mono_ms(); }
    std::string boot() const override { return real_.boot(); }

  private:
    RealClock real_;
    std::int64_t start_ms_;
    std::int64_t begun_ = real_.mono_ms();
};

double processor_ms() {
    rusage used{};
    ::getrusage(RUSAGE_SELF, &used);
    const auto ms = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) * 1000 + static_cast<double>(time.tv_usec) / 1000;
    };
    return ms(used.ru_utime) + ms(used.ru_stime);
}

struct Counted {
    std::uint64_t drawn = 0;
    std::uint64_t shown = 0;
    double processor = 0;
};

Counted count_now(const WindowGlass& glass) {
    return {glass.frames_drawn(), glass.frames_shown(), processor_ms()};
}

void watch() {
    constexpr std::int64_t kStart = 1795608305000;  // 2026-11-25T12:05:05Z, 06:05:05 on the site
    constexpr std::int64_t kSettled = kStart + 5000;
    constexpr std::int64_t kEnd = kSettled + 10000;
    const ContentDirs dirs = resolved({});
    ShiftedClock clock(kStart);
    SystemRandom random;
    const auto site = need(in_memory_site(
        load_content(dirs.content, dirs.assets, dirs.content + "/sites/example"), clock, random));
    App app(site->world());
    WindowOptions options;
    options.full_screen = true;
    options.paint = illustration_paint(dirs.assets + "/illustrations");
    const auto glass = need(WindowGlass::open(options));
    Counted settled;
    show_in(*glass, app, clock, [&] {
        if (settled.drawn == 0 && clock.now_ms() >= kSettled) settled = count_now(*glass);
        return clock.now_ms() >= kEnd ? Beat::stop : Beat::nothing;
    });
    const Counted end = count_now(*glass);
    fmt::print("idle: ten seconds of a floor that nobody touches\n");
    fmt::print("  frames until settled    {:8}, {} of them shown\n", settled.drawn, settled.shown);
    fmt::print("  frames while idle       {:8}, {} of them shown (0 expected)\n",
               end.drawn - settled.drawn, end.shown - settled.shown);
    fmt::print("  processor while idle    {:8.1f} ms in ten seconds\n",
               end.processor - settled.processor);
}

}  // namespace
}  // namespace holdpin::bench

int main() {
    holdpin::bench::watch();
    return 0;
}
