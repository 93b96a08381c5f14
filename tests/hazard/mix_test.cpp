#include "hazard/mix.hpp"

#include "near.hpp"

using namespace holdpin;

namespace {

constexpr double kOzOfGallon = 128;
constexpr double kLitresOfOz = 0.0295735295625;

// Ounces for a tank in gallons.
double ounces(double ratio, MixConvention convention, double gallons) {
    return must(mix(ratio, convention, gallons * kOzOfGallon * kLitresOfOz)).concentrate_l /
           kLitresOfOz;
}

struct MixRow {
    double ratio;
    double per_water_oz;    // published
    double per_water_last;  // half a unit of its last printed digit
    double percent;         // published
    double percent_last;
    double in_parts_oz;
    double in_parts_last;
};

// Trade dilution charts, read (columns 2 and 4); in-parts column computed and printed in other
// charts (V=). 1:16 is printed as 5.8 %, cut off and not rounded: 5.88 is asserted.
constexpr MixRow kChart[] = {
    {1, 128, 0.5, 50, 0.5, 64, 0.5},
    {2, 64, 0.5, 33, 0.5, 42.67, 0.005},
    {4, 32, 0.5, 20, 0.5, 25.6, 0.05},
    {8, 16, 0.5, 11.1, 0.05, 14.22, 0.005},
    {10, 12.8, 0.05, 9.1, 0.05, 11.64, 0.005},
    {16, 8, 0.5, 5.88, 0.005, 7.53, 0.005},
    {20, 6.4, 0.05, 4.8, 0.05, 6.10, 0.005},
    {32, 4, 0.5, 3.0, 0.05, 3.88, 0.005},
    {64, 2, 0.5, 1.5, 0.05, 1.97, 0.005},
    {128, 1, 0.5, 0.78, 0.005, 0.992, 0.0005},
    {256, 0.5, 0.05, 0.39, 0.005, 0.498, 0.0005},
    {512, 0.25, 0.005, 0.19, 0.005, 0.2495, 0.00005},
};

}  // namespace

TEST_CASE("a gallon takes the ounces of the charts, in both conventions") {
    for (const MixRow& row : kChart) {
        CAPTURE(row.ratio);
        CHECK(near(ounces(row.ratio, MixConvention::per_water, 1), row.per_water_oz,
                   row.per_water_last));
        CHECK(near(ounces(row.ratio, MixConvention::in_parts, 1), row.in_parts_oz,
                   row.in_parts_last));
        CHECK(near(must(mix(row.ratio, MixConvention::in_parts, 1)).percent, row.percent,
                   row.percent_last));
    }
}

TEST_CASE("worked examples of the charts come out") {
    // Trade charts, read, V=: five gallons at 1:4 take 128 oz, exact.
    CHECK(near(ounces(4, MixConvention::in_parts, 5), 128, 1e-9));
    // Read, V= to the printed kitchen fractions: a 24 oz bottle at 1:4, 1:64, 1:256.
    CHECK(near(ounces(4, MixConvention::in_parts, 24.0 / 128), 4.75, 0.1));
    CHECK(near(ounces(64, MixConvention::in_parts, 24.0 / 128), 1.0 / 3, 0.05));
    CHECK(near(ounces(256, MixConvention::in_parts, 24.0 / 128), 0.1, 0.01));
    // Read, V=: ten ounces in five gallons are 1:64.
    CHECK(near(must(mix_ratio(10 * kLitresOfOz, MixConvention::per_water, 5 * 128 * kLitresOfOz)),
               64, 1e-9));
    // Read, V=: a gallon at 1:32 makes 33.
    CHECK(near(1.0 / must(mix(32, MixConvention::in_parts, 1)).concentrate_l, 33, 1e-9));
    // Read, V=: a ready gallon of a concentrate at $13.40, 1:128, is 10.4 ct; $12.30, 1:256, 4.8
    // ct.
    CHECK(near(100 * 13.40 * must(mix(128, MixConvention::in_parts, 1)).concentrate_l, 10.4, 0.05));
    CHECK(near(100 * 12.30 * must(mix(256, MixConvention::in_parts, 1)).concentrate_l, 4.8, 0.05));
}

TEST_CASE("parts of a million of active matter are those of the charts") {
    // Trade charts, read, V=: 4.5 % at 1:64 in parts 692; at 1:256 and 1:128 per water 176 and 352.
    CHECK(near(must(active_ppm(4.5, 64, MixConvention::in_parts)), 692, 0.5));
    CHECK(near(must(active_ppm(4.5, 256, MixConvention::per_water)), 176, 0.5));
    CHECK(near(must(active_ppm(4.5, 128, MixConvention::per_water)), 352, 0.5));
}

TEST_CASE("the ratio comes back from the amount, in both conventions") {
    for (const MixConvention convention : {MixConvention::in_parts, MixConvention::per_water}) {
        for (const double ratio : {1.0, 3.5, 40.0, 128.0, 9999.0}) {
            const double litres = must(mix(ratio, convention, 75)).concentrate_l;
            CHECK(near_share(must(mix_ratio(litres, convention, 75)), ratio, 1e-9));
        }
    }
}

TEST_CASE("a thinner mix takes less, and in parts less than per water") {
    double before = 1e9;
    for (double ratio = 1; ratio < 600; ratio += 7) {
        const double now = must(mix(ratio, MixConvention::in_parts, 75)).concentrate_l;
        CHECK(now < before);
        CHECK(now < must(mix(ratio, MixConvention::per_water, 75)).concentrate_l);
        before = now;
    }
}

TEST_CASE("a ratio or a tank that is nothing is refused") {
    for (const double bad : {0.0, -1.0, 1e9, kNotANumber, kEndless}) {
        CHECK(mix(bad, MixConvention::in_parts, 75).error().where == "ratio");
        CHECK(mix(40, MixConvention::in_parts, bad).error().where == "tank_l");
        CHECK(active_ppm(bad, 64, MixConvention::in_parts).error().where == "active_percent");
        CHECK_FALSE(mix_ratio(bad, MixConvention::in_parts, 75).ok());
    }
    CHECK(mix_ratio(80, MixConvention::in_parts, 75).error().where == "ratio");
}
