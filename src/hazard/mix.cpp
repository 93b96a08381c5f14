#include "hazard/mix.hpp"

#include "hazard/valid_range.hpp"

namespace holdpin {
namespace {

constexpr ValidRange kRatio = {"ratio", "", 1, 10'000};
constexpr ValidRange kTank = {"tank_l", "L", 0.01, 20'000};
constexpr ValidRange kConcentrate = {"concentrate_l", "L", 1e-6, 20'000};
constexpr ValidRange kActive = {"active_percent", "%", 0.001, 100};
constexpr double kPpmOfPercent = 10'000.0;

double parts(double ratio, MixConvention convention) {
    return convention == MixConvention::in_parts ? ratio + 1.0 : ratio;
}

}  // namespace

Result<Mix> mix(double ratio, MixConvention convention, double tank_l) {
    TRY(refuse_outside(kRatio, ratio));
    TRY(refuse_outside(kTank, tank_l));
    return Mix{tank_l / parts(ratio, convention), 100.0 / (1.0 + ratio)};
}

Result<double> active_ppm(double active_percent, double ratio, MixConvention convention) {
    TRY(refuse_outside(kActive, active_percent));
    TRY(refuse_outside(kRatio, ratio));
    return active_percent * kPpmOfPercent / parts(ratio, convention);
}

Result<double> mix_ratio(double concentrate_l, MixConvention convention, double tank_l) {
    TRY(refuse_outside(kConcentrate, concentrate_l));
    TRY(refuse_outside(kTank, tank_l));
    const double whole = tank_l / concentrate_l;
    const double ratio = convention == MixConvention::in_parts ? whole - 1.0 : whole;
    TRY(refuse_outside(kRatio, ratio));
    return ratio;
}

}  // namespace holdpin
