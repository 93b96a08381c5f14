#include "hazard/lp_vapour.hpp"

#include "near.hpp"

using namespace holdpin;

namespace {

constexpr double kKpaOfPsi = 6.894757293168;
constexpr double kLbGal_kg_m3 = 119.826427;  // one pound a US gallon

struct VapourRow {
    double fahrenheit;
    double absolute_kpa;
    double psig;        // from the equation of state
    double chart_psig;  // below zero: none printed
    double kg_m3;
    double lb_gal;
};

// Pure propane. Columns 2, 3, 5, 6: equation of state behind Lemmon, McLinden and Wagner, J. Chem.
// Eng. Data 54 (2009), recomputed (V=). Column 4: trade chart "100 % propane psig", read.
constexpr VapourRow kTable[] = {
    {-43.8, 101.3, 0.0, -1, 580.5, 4.845},  {-30, 140.4, 5.7, 6.8, 571.5, 4.770},
    {-20, 175.3, 10.7, 11.5, 564.9, 4.714}, {-10, 216.5, 16.7, 17.5, 558.2, 4.658},
    {0, 264.7, 23.7, 24.5, 551.3, 4.601},   {10, 320.6, 31.8, 34, 544.3, 4.542},
    {20, 385.0, 41.1, 42, 537.2, 4.483},    {30, 458.5, 51.8, 53, 529.9, 4.422},
    {40, 542.1, 63.9, 65, 522.4, 4.359},    {50, 636.5, 77.6, 78, 514.7, 4.295},
    {60, 742.6, 93.0, 93, 506.7, 4.229},    {70, 861.1, 110.2, 110, 498.5, 4.160},
    {80, 993.0, 129.3, 128, 490.0, 4.089},  {90, 1139.1, 150.5, 150, 481.1, 4.015},
    {100, 1300.4, 173.9, 177, 471.8, 3.937}, {110, 1477.8, 199.6, 204, 462.0, 3.856},
    {120, 1672.3, 227.9, -1, 451.7, 3.769}, {130, 1885.0, 258.7, -1, 440.6, 3.677},
};

double celsius(double fahrenheit) { return (fahrenheit - 32.0) / 1.8; }

}  // namespace

TEST_CASE("pure propane follows the saturation table from -43.8 to 130 °F") {
    for (const VapourRow& row : kTable) {
        CAPTURE(row.fahrenheit);
        const LpVapour vapour = must(lp_vapour(celsius(row.fahrenheit)));
        CHECK(near_share(vapour.absolute_kpa, row.absolute_kpa, 0.001));
        CHECK(near(vapour.gauge_kpa / kKpaOfPsi, row.psig, 0.15 + 0.001 * row.psig));
        CHECK(near_share(vapour.liquid_kg_m3, row.kg_m3, 0.001));
        CHECK(near_share(vapour.liquid_kg_m3 / kLbGal_kg_m3, row.lb_gal, 0.001));
        // The chart is coarse: 4.5 psi.
        if (row.chart_psig >= 0) CHECK(near(vapour.gauge_kpa / kKpaOfPsi, row.chart_psig, 4.5));
    }
}

TEST_CASE("pure propane follows the table in steps of ten degrees Celsius") {
    // Equation of state, recomputed (V=).
    constexpr double kRows[][2] = {{-40, 111.1}, {-30, 167.9}, {-20, 244.5}, {-10, 345.3},
                                   {0, 474.4},   {10, 636.5},  {20, 836.4},  {30, 1078.9},
                                   {40, 1369.4}, {50, 1713.4}};
    for (const auto& row : kRows) {
        CAPTURE(row[0]);
        CHECK(near_share(must(lp_vapour(row[0])).absolute_kpa, row[1], 0.001));
    }
}

TEST_CASE("propane boils at -42.12 °C under the pressure of the air") {
    CHECK(near(must(lp_vapour(-42.12)).gauge_kpa, 0.0, 0.2));
    CHECK(must(lp_vapour(-50)).gauge_kpa < 0);
}

TEST_CASE("densities of the filling rule agree with the equation of state within 0.3 %") {
    // 29 CFR 1910.110(b)(19)(v)(d), read: 4.37 lb a gallon at 40 °F, 4.31 at 50 °F.
    CHECK(near_share(must(lp_vapour(celsius(40))).liquid_kg_m3 / kLbGal_kg_m3, 4.37, 0.004));
    CHECK(near_share(must(lp_vapour(celsius(50))).liquid_kg_m3 / kLbGal_kg_m3, 4.31, 0.004));
}

TEST_CASE("commercial propane stands higher than the pure propane of this sum") {
    // Table of approximate properties of LP-gases, secondary copies: 127 psig at 70 °F.
    const double psig = must(lp_vapour(celsius(70))).gauge_kpa / kKpaOfPsi;
    CHECK(psig < 127);
    CHECK(psig > 100);
}

TEST_CASE("pressure rises and density falls with temperature, up to the critical point") {
    LpVapour before = must(lp_vapour(-73.15));
    for (double celsius = -73; celsius <= 96.7; celsius += 0.7) {
        const LpVapour now = must(lp_vapour(celsius));
        CHECK(now.absolute_kpa > before.absolute_kpa);
        CHECK(now.liquid_kg_m3 < before.liquid_kg_m3);
        before = now;
    }
    const LpVapour critical = must(lp_vapour(96.74));
    CHECK(near_share(critical.absolute_kpa, 4251.2, 1e-6));
    CHECK(near_share(critical.liquid_kg_m3, 220.48, 1e-3));
}

TEST_CASE("a temperature outside 200 K and the critical point is refused with a sentence") {
    for (const double celsius : {-73.2, -300.0, 96.75, 1e9, kNotANumber, kEndless, -kEndless}) {
        CAPTURE(celsius);
        const auto vapour = lp_vapour(celsius);
        REQUIRE_FALSE(vapour.ok());
        CHECK(vapour.error().where == "temperature_c");
        CHECK_FALSE(vapour.error().mend.empty());
    }
}
