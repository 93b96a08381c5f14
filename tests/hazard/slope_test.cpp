#include "hazard/slope.hpp"

#include "near.hpp"

using namespace holdpin;

TEST_CASE("percentages of slope have the angles of the table") {
    // Geometry, computed (C).
    constexpr double kRows[][2] = {{2, 1.15},  {5, 2.86},   {8.33, 4.76}, {10, 5.71}, {12, 6.84},
                                   {15, 8.53}, {20, 11.31}, {25, 14.04},  {100, 45}};
    for (const auto& row : kRows) {
        CHECK(near(must(slope_of_percent(row[0])).degrees, row[1], 0.005));
    }
}

TEST_CASE("angle and percentage come back from each other, and both rise together") {
    double before = -1;
    for (double percent = 0; percent < 99.9; percent += 0.37) {
        const Slope slope = must(slope_of_percent(percent));
        CHECK(near(must(slope_of_degrees(slope.degrees)).percent, percent, 1e-9));
        CHECK(slope.degrees > before);
        before = slope.degrees;
    }
}

TEST_CASE("a slope is within a limit that it meets exactly, however it was given") {
    CHECK(must(slope_within(must(slope_of_percent(10)), 10)));
    CHECK_FALSE(must(slope_within(must(slope_of_percent(10.01)), 10)));
    const Slope twelve = must(slope_of_percent(12));
    CHECK(must(slope_within(must(slope_of_degrees(twelve.degrees)), 12)));
}

TEST_CASE("a slope that falls, overhangs or is no number is refused") {
    for (const double bad : {-1.0, 101.0, 1e9, kNotANumber, kEndless}) {
        CHECK(slope_of_percent(bad).error().where == "percent");
        CHECK(slope_of_degrees(bad).error().where == "degrees");
        CHECK(slope_within(Slope{}, bad).error().where == "limit_percent");
    }
}
