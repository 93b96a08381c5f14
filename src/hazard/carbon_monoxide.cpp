#include "hazard/carbon_monoxide.hpp"

#include "hazard/valid_range.hpp"

namespace holdpin {

namespace {

constexpr ValidRange kPpm{"ppm", "ppm", 0, 1'000'000};
constexpr ValidRange kMilligrams{"mg_m3", "mg/m³", 0, 1'200'000};
constexpr ValidRange kGramsPerHour{"source_gh", "g/h", 0, 1'000'000};
constexpr ValidRange kLitresPerMinute{"source_lmin", "L/min", 0, 10'000};
constexpr ValidRange kExhaustPercent{"exhaust percent", "%", 0, 20};
constexpr ValidRange kExhaustFlow{"exhaust flow", "L/min", 0, 100'000};

}  // namespace

Result<double> co_mg_m3(double ppm) {
    TRY(refuse_outside(kPpm, ppm));
    return ppm * kCoGramsPerMole / kLitresPerMole;
}

Result<double> co_ppm(double mg_m3) {
    TRY(refuse_outside(kMilligrams, mg_m3));
    return mg_m3 * kLitresPerMole / kCoGramsPerMole;
}

Result<double> co_lmin_of_gh(double grams_per_hour) {
    TRY(refuse_outside(kGramsPerHour, grams_per_hour));
    return grams_per_hour / kCoGramsPerMole * kLitresPerMole / 60;
}

Result<double> co_gh_of_lmin(double litres_per_minute) {
    TRY(refuse_outside(kLitresPerMinute, litres_per_minute));
    return litres_per_minute * 60 / kLitresPerMole * kCoGramsPerMole;
}

Result<double> exhaust_co_lmin(double percent, double flow_lmin) {
    TRY(refuse_outside(kExhaustPercent, percent));
    TRY(refuse_outside(kExhaustFlow, flow_lmin));
    return percent / 100 * flow_lmin;
}

}  // namespace holdpin
