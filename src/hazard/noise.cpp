#include "hazard/noise.hpp"

#include <cmath>

namespace holdpin {
namespace {

struct RuleFigures {
    double criterion_dba;  // for 8 hours
    double exchange_db;    // for half the time
    double twa_factor;     // as published, rounded
    double loudest_dba;
};
constexpr RuleFigures kOsha = {90, 5, 16.61, 130};
constexpr RuleFigures kNiosh = {85, 3, 10, 140};
constexpr double kThreshold_dba = 80;
constexpr double kQuietest_dba = 40;
constexpr double kDay_h = 8;
constexpr double kActionDose_percent = 50;

const RuleFigures& figures(NoiseRule rule) { return rule == NoiseRule::osha ? kOsha : kNiosh; }

ValidRange levels(NoiseRule rule) {
    return {"dba", "dBA", kQuietest_dba, figures(rule).loudest_dba};
}

double hours_at(double level_dba, const RuleFigures& rule) {
    return kDay_h / std::exp2((level_dba - rule.criterion_dba) / rule.exchange_db);
}

double twa_of(double dose_percent, const RuleFigures& rule) {
    return rule.twa_factor * std::log10(dose_percent / 100.0) + rule.criterion_dba;
}

}  // namespace

Result<double> allowed_hours(double level_dba, NoiseRule rule) {
    TRY(refuse_outside(levels(rule), level_dba));
    return hours_at(level_dba, figures(rule));
}

Result<NoiseDay> noise_day(const std::vector<TimedLevel>& day, NoiseRule rule) {
    TRY(refuse_day_outside(levels(rule), day));
    NoiseDay noise;
    for (const TimedLevel& part : day) {
        if (part.level < kThreshold_dba) continue;
        noise.dose_percent += 100.0 * part.hours / hours_at(part.level, figures(rule));
    }
    if (noise.dose_percent > 0) noise.twa_dba = twa_of(noise.dose_percent, figures(rule));
    return noise;
}

Result<double> noise_twa_dba(double dose_percent, NoiseRule rule) {
    TRY(refuse_outside({"dose_percent", "%", 0.1, 100'000}, dose_percent));
    return twa_of(dose_percent, figures(rule));
}

Result<double> osha_action_level_dba(double shift_h) {
    TRY(refuse_outside({"shift_h", "h", 1, 24}, shift_h));
    return twa_of(kActionDose_percent * kDay_h / shift_h, kOsha);
}

}  // namespace holdpin
