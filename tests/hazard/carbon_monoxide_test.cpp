#include "hazard/carbon_monoxide.hpp"

#include "near.hpp"

using namespace holdpin;

TEST_CASE("parts per million come out in the milligrams that the limits are printed in") {
    // NIOSH Pocket Guide (read, V=): 35 ppm 40 mg/m³, 200 ppm 229; ACGIH (read, V=): 25 ppm 29.
    CHECK(near(must(co_mg_m3(35)), 40, 0.5));
    CHECK(near(must(co_mg_m3(200)), 229, 0.5));
    CHECK(near(must(co_mg_m3(25)), 29, 0.5));
    // Directive (EU) 2022/431 (read): 20 ppm 23 mg/m³. Its 117 for 100 ppm is on another basis.
    CHECK(near(must(co_mg_m3(20)), 23, 0.5));
    // Molar mass 28.01, 24.45 L/mol at 25 °C (V): the other values of the row.
    constexpr double kRow[][2] = {{9, 10.3},  {20, 22.9},   {25, 28.6},  {35, 40.1},
                                  {50, 57.3}, {100, 114.6}, {200, 229.1}};
    for (const auto& [ppm, mg] : kRow) CHECK(near(must(co_mg_m3(ppm)), mg, 0.05));
    CHECK(near(must(co_mg_m3(1200)), 1375, 0.5));
}

TEST_CASE("an exhaust gives off what was measured of propane lift trucks") {
    // Fawcett et al. 1992, J Occup Med 34:12-15 (read, V=): idling 3.56 % of 450 L/min is
    // 16 L/min; working 3.05 % of 2000 L/min is 61 L/min, 69.8 g/min at 25 °C.
    CHECK(near(must(exhaust_co_lmin(3.56, 450)), 16, 0.5));
    CHECK(near(must(exhaust_co_lmin(3.05, 2000)), 61, 0.5));
    CHECK(near(must(co_gh_of_lmin(61)) / 60, 69.8, 0.1));
}

TEST_CASE("litres and grams, ppm and milligrams come back as they went") {
    for (const double value : {0.0, 0.001, 16.0, 61.0, 9999.0}) {
        CHECK(must(co_lmin_of_gh(must(co_gh_of_lmin(value)))) ==
              doctest::Approx(value).epsilon(1e-14));
        CHECK(must(co_ppm(must(co_mg_m3(value)))) == doctest::Approx(value).epsilon(1e-14));
    }
}

TEST_CASE("a gas amount that cannot be is refused") {
    for (const double bad : {-1.0, kNotANumber, kEndless, 1e30}) {
        CHECK_FALSE(co_mg_m3(bad).ok());
        CHECK_FALSE(co_ppm(bad).ok());
        CHECK_FALSE(co_lmin_of_gh(bad).ok());
        CHECK_FALSE(co_gh_of_lmin(bad).ok());
        CHECK_FALSE(exhaust_co_lmin(bad, 450).ok());
        CHECK_FALSE(exhaust_co_lmin(3, bad).ok());
    }
}
