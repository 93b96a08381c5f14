// The uptake integrator against a plain fixed-step Runge–Kutta of fourth order that is as exact:
// the number of its steps is doubled until its end lies as near to the reference as the
// integrator's. Both run in the same process, taking turns; read the ratio.
#include "hazard/uptake.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>

namespace holdpin {
namespace {

struct Course {
    const char* name;
    double start_percent;
    AirCourse air;
    double minutes;
};
constexpr Course kCourses[] = {
    {"a shift at 35 ppm", 0.75, {35, 0, 0}, 480},
    {"a hall that fills up", 0.75, {0, 30, 0.02}, 240},
    {"a room full of exhaust", 0.75, {5'000, 0, 0}, 60},
    {"two days of clean air", 30, {0, 0, 0}, 2'880},
};

double plain(const Cfk& cfk, double bound, const Course& course, int steps) {
    const double h = course.minutes / steps;
    for (int i = 0; i < steps; ++i) {
        const double t = i * h;
        const double a = cfk.rate(bound, course.air.at(t));
        const double b = cfk.rate(bound + h / 2 * a, course.air.at(t + h / 2));
        const double c = cfk.rate(bound + h / 2 * b, course.air.at(t + h / 2));
        const double d = cfk.rate(bound + h * c, course.air.at(t + h));
        bound += h / 6 * (a + 2 * b + 2 * c + d);
    }
    return bound;
}

// Microseconds of one call, the best of five hundreds.
template <typename Call>
double microseconds(Call call) {
    double best = 1e9;
    double sum = 0;
    for (int turn = 0; turn < 5; ++turn) {
        const auto begin = std::chrono::steady_clock::now();
        for (int i = 0; i < 100; ++i) sum += call();
        const std::chrono::duration<double, std::micro> took =
            std::chrono::steady_clock::now() - begin;
        best = std::min(best, took.count() / 100);
    }
    if (std::isnan(sum)) fmt::print("not a number\n");
    return best;
}

void compare(const Cfk& cfk, const Course& course) {
    const double start = cfk.bound(course.start_percent);
    const double reference = plain(cfk, start, course, 400'000);
    long steps = 0;
    const auto adaptive = [&] {
        return integrate_uptake(cfk, start, course.air, course.minutes, &steps).value_or(0);
    };
    const double miss = std::max(std::abs(adaptive() - reference), 1e-13);
    int equal = 4;
    const auto misses = [&] {
        return !(std::abs(plain(cfk, start, course, equal) - reference) <= miss);
    };
    while (equal < 200'000 && misses()) equal *= 2;
    const double ours = microseconds(adaptive);
    const double theirs = microseconds([&] { return plain(cfk, start, course, equal); });
    fmt::print(
        "{:24} {:.0e} %COHb off: {:4} steps {:7.1f} us; fixed {:6} steps {:8.1f} us; ratio "
        "{:.1f}\n",
        course.name, cfk.percent(miss), steps, ours, equal, theirs, theirs / ours);
}

}  // namespace
}  // namespace holdpin

int main() {
    using namespace holdpin;
    Breather breather;
    const Result<Lungs> lungs = lungs_at(Activity::light, breather.ambient);
    if (!lungs.ok()) return EXIT_FAILURE;
    breather.lungs = lungs.value();
    const Result<Cfk> cfk = cfk_of(breather);
    if (!cfk.ok()) return EXIT_FAILURE;
    for (const Course& course : kCourses) compare(cfk.value(), course);
    return EXIT_SUCCESS;
}
