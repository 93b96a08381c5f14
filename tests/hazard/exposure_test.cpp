#include "hazard/exposure.hpp"

#include <algorithm>

#include "draw.hpp"
#include "near.hpp"

using namespace holdpin;

namespace {

// The slow twin: every window that begins on a grid of hundredths of an hour. The intervals lie on
// that grid, with a day of clean air on either side.
double twin_worst(const std::vector<ExposureInterval>& intervals, double window_h) {
    const auto hundredths = [](double hours) {
        return static_cast<std::size_t>(std::lround(hours * 100));
    };
    std::vector<double> ppm(2'400, 0.0);
    for (const ExposureInterval& interval : intervals) {
        ppm.insert(ppm.end(), hundredths(interval.hours), interval.ppm);
    }
    ppm.resize(ppm.size() + 2'400);
    const std::size_t width = hundredths(window_h);
    double most = 0;
    for (std::size_t begin = 0; begin + width <= ppm.size(); ++begin) {
        double sum = 0;
        for (std::size_t i = begin; i < begin + width; ++i) sum += ppm[i];
        most = std::max(most, sum / static_cast<double>(width));
    }
    return most;
}

double share_of(const Exposure& exposure, std::string_view id) {
    for (const LimitShare& share : exposure.shares) {
        if (share.limit.id == id) return share.share;
    }
    FAIL("no such limit");
    return 0;
}

}  // namespace

TEST_CASE("the worked example of the regulation comes out") {
    // 29 CFR 1910.1000(d)(1)(ii) (read, V=): 2 h at 150, 2 h at 75, 4 h at 50 are 81.25 ppm.
    const std::vector<ExposureInterval> day{{2, 150}, {2, 75}, {4, 50}};
    CHECK(near(must(exposure(day, 8)).twa_8h_ppm, 81.25, 0.005));
    // (d)(2)(ii) (read, V=): 500/1000 + 45/200 + 40/200 is 0.925.
    const std::vector<MixturePart> air{{500, 1000}, {45, 200}, {40, 200}};
    CHECK(near(must(mixture_share(air)), 0.925, 0.0005));
}

TEST_CASE("limits of longer shifts come out by both rules") {
    // Brief and Scala (read in secondary copies, V=).
    CHECK(near(must(brief_scala(8)), 1.0, 0.05));
    CHECK(near(must(brief_scala(10)), 0.7, 0.05));
    CHECK(near(must(brief_scala(12)), 0.5, 0.05));
    CHECK(near(must(brief_scala(14)), 0.357, 0.0005));
    CHECK(near(must(brief_scala(16)), 0.25, 0.005));
    CHECK(must(brief_scala(4)) == 1);
    // OSHA's rule for lead, 400/h (read in a secondary copy, V=): 50 µg/m³ for 8 h.
    CHECK(near(must(equal_dose_limit(50, 10)), 40, 0.5));
    CHECK(near(must(equal_dose_limit(50, 12)), 33, 0.5));
    // 12 h of carbon monoxide under the NIOSH limit (computed here only).
    const std::vector<ExposureInterval> night{{12, 17.5}};
    const Exposure found = must(exposure(night, 12));
    CHECK(found.shares[1].limit.id == "niosh");
    CHECK(near(found.shares[1].extended_limit_ppm, 17.5, 1e-9));
    CHECK(near(found.shift_mean_ppm, 17.5, 1e-9));
}

TEST_CASE("exposure is held against the published limits") {
    // OSHA PEL 50, NIOSH REL 35 and ceiling 200, ACGIH 25 (read on osha.gov CH_225600 and in the
    // NIOSH IDLH document); EU 20 and 100 (read in the ECHA list for Directive 2004/37/EC).
    const std::vector<ExposureInterval> day{{0.25, 200}, {3.75, 40}, {4, 0}};
    const Exposure found = must(exposure(day, 8));
    CHECK(found.twa_8h_ppm == doctest::Approx(25));
    CHECK(share_of(found, "osha") == doctest::Approx(0.5));
    CHECK(share_of(found, "niosh") == doctest::Approx(25.0 / 35));
    CHECK(share_of(found, "acgih") == doctest::Approx(1));
    CHECK(share_of(found, "eu") == doctest::Approx(1.25));
    CHECK(share_of(found, "eu-15min") == doctest::Approx(2));
    CHECK(share_of(found, "niosh-ceiling") == doctest::Approx(1));
}

TEST_CASE("of a long shift the worst eight hours count") {
    // OSHA interpretation of 23 January 1997 (read).
    const std::vector<ExposureInterval> shift{{2, 10}, {8, 40}, {2, 10}};
    CHECK(must(exposure(shift, 12)).twa_8h_ppm == doctest::Approx(40));
    CHECK(must(exposure(shift, 12)).shift_mean_ppm == doctest::Approx(30));
}

TEST_CASE("the worst window agrees with a search through all of them") {
    Draw draw(321);
    for (int round = 0; round < 25; ++round) {
        CAPTURE(round);
        std::vector<ExposureInterval> day;
        double left = 24;
        while (left > 2) {
            const double hours = std::round(draw.between(0.05, 2) * 100) / 100;
            day.push_back({hours, std::round(draw.between(0, 150))});
            left -= hours;
        }
        for (const double window : {0.25, 1.0, 8.0}) {
            CHECK(must(worst_mean_ppm(day, window)) ==
                  doctest::Approx(twin_worst(day, window)).epsilon(1e-9));
        }
    }
}

TEST_CASE("a short time is taken with clean air around it") {
    const std::vector<ExposureInterval> dash{{0.125, 100}};
    CHECK(must(worst_mean_ppm(dash, 0.25)) == doctest::Approx(50));
    CHECK(must(worst_mean_ppm(dash, 8)) == doctest::Approx(100 * 0.125 / 8));
}

TEST_CASE("more gas or more time never lowers a mean") {
    Draw draw(322);
    for (int round = 0; round < 200; ++round) {
        std::vector<ExposureInterval> day{{draw.between(0.1, 2), draw.between(0, 99)},
                                          {draw.between(0.1, 2), draw.between(0, 99)},
                                          {draw.between(0.1, 2), draw.between(0, 99)}};
        const Exposure before = must(exposure(day, 8));
        const auto which = static_cast<std::size_t>(round % 3);
        day[which].ppm += 1;
        day[which].hours += 0.1;
        const Exposure after = must(exposure(day, 8));
        CHECK(after.twa_8h_ppm > before.twa_8h_ppm);
        CHECK(after.worst_15min_ppm >= before.worst_15min_ppm - 1e-9);
    }
}

TEST_CASE("an exposure that cannot be is refused") {
    using Day = std::vector<ExposureInterval>;
    CHECK_FALSE(exposure(Day{}, 8).ok());
    CHECK_FALSE(exposure(Day{{20, 10}, {5, 10}}, 16).ok());
    CHECK_FALSE(exposure(Day{{10, 10}}, 8).ok());  // longer than its shift
    for (const double bad : {-1.0, kNotANumber, kEndless, 1e30}) {
        CAPTURE(bad);
        CHECK_FALSE(exposure(Day{{bad, 10}}, 8).ok());
        CHECK_FALSE(exposure(Day{{1, bad}}, 8).ok());
        CHECK_FALSE(exposure(Day{{1, 10}}, bad).ok());
        CHECK_FALSE(worst_mean_ppm(Day{{1, 10}}, bad).ok());
        CHECK_FALSE(brief_scala(bad).ok());
        CHECK_FALSE(equal_dose_limit(bad, 10).ok());
        CHECK_FALSE(equal_dose_limit(50, bad).ok());
        CHECK_FALSE(mixture_share(std::vector<MixturePart>{{bad, 10}}).ok());
        CHECK_FALSE(mixture_share(std::vector<MixturePart>{{10, bad}}).ok());
    }
    CHECK_FALSE(brief_scala(17).ok());
}
