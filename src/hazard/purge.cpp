#include "hazard/purge.hpp"

#include <fmt/format.h>

#include <cmath>

#include "hazard/valid_range.hpp"

namespace holdpin {

namespace {

constexpr ValidRange kAch{"ach", "air changes an hour", 0.001, 1000};
constexpr ValidRange kMixing{"mixing", "", 1, 10};
constexpr ValidRange kVolume{"volume_m3", "m³", 1, 10'000'000};
constexpr ValidRange kAirflow{"airflow_m3h", "m³/h", 0.001, 100'000'000};
constexpr ValidRange kFrom{"from_ppm", "ppm", 0.001, 1'000'000};
constexpr ValidRange kTo{"to_ppm", "ppm", 0.001, 1'000'000};
constexpr ValidRange kRemoval{"removal_percent", "%", 0, 99.9999};

Result<double> minutes_for(const Airing& airing, double log_ratio) {
    TRY(refuse_outside(kAch, airing.ach));
    TRY(refuse_outside(kMixing, airing.mixing));
    return 60 * airing.mixing * log_ratio / airing.ach;
}

}  // namespace

Result<double> air_changes(double volume_m3, double airflow_m3h) {
    TRY(refuse_outside(kVolume, volume_m3));
    TRY(refuse_outside(kAirflow, airflow_m3h));
    return airflow_m3h / volume_m3;
}

Result<double> purge_minutes(const Airing& airing, double from_ppm, double to_ppm) {
    TRY(refuse_outside(kFrom, from_ppm));
    TRY(refuse_outside(kTo, to_ppm));
    if (to_ppm > from_ppm) {
        return Error{ErrorKind::invalid,
                     fmt::format("airing does not bring {:g} ppm up to {:g} ppm", from_ppm, to_ppm),
                     "", "give to_ppm below from_ppm"};
    }
    return minutes_for(airing, std::log(from_ppm / to_ppm));
}

Result<double> removal_minutes(const Airing& airing, double percent) {
    TRY(refuse_outside(kRemoval, percent));
    return minutes_for(airing, -std::log1p(-percent / 100));
}

}  // namespace holdpin
