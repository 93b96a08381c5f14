// What the benches share: a stopwatch, medians of runs that take turns, and a site to run on.
// Nothing here judges: a bench says what it measured, with the target beside it for the reader.
#pragma once

#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/clock.hpp"
#include "base/random.hpp"
#include "cli/site_data.hpp"

namespace holdpin::bench {

using Milliseconds = std::chrono::duration<double, std::milli>;

inline double took_ms(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return Milliseconds(std::chrono::steady_clock::now() - start).count();
}

inline double median(std::vector<double> values) {
    if (values.empty()) return 0;
    std::sort(values.begin(), values.end());
    const std::size_t middle = values.size() / 2;
    return values.size() % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
}

// Each measure gives the milliseconds of one run. They take turns, A-B-A-B, so that whatever else
// the machine does meets all of them alike; the first turn warms up and does not count.
using Measure = std::function<double()>;
inline std::vector<double> medians(int turns, const std::vector<Measure>& measures) {
    std::vector<std::vector<double>> all(measures.size());
    for (int turn = -1; turn < turns; ++turn) {
        for (std::size_t i = 0; i < measures.size(); ++i) {
            const double ms = measures[i]();
            if (turn >= 0) all[i].push_back(ms);
        }
    }
    std::vector<double> middles;
    for (auto& values : all) middles.push_back(median(std::move(values)));
    return middles;
}

// A bench that cannot run says why and ends.
template <typename T>
T need(Result<T> result) {
    if (!result.ok()) {
        fmt::print(stderr, "the bench cannot run: {}\n", result.error().sentence());
        std::exit(1);
    }
    return std::move(result).value();
}
inline void need(const Result<void>& result) {
    if (result.ok()) return;
    fmt::print(stderr, "the bench cannot run: {}\n", result.error().sentence());
    std::exit(1);
}

// The example site, freshly set up in a folder of its own. Its PINs cost the least: setting up is
// never measured.
inline void make_example_site(const std::string& dir, Clock& clock, Random& random) {
    const ContentDirs dirs = resolved({});
    need(init_site(dir, dirs.content + "/sites/example", dirs, clock, random, PinCost::least));
}

}  // namespace holdpin::bench
