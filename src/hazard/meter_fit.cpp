// The least-squares fit of meter.hpp. For a given airflow the curve is linear in the first level
// and the source, so that only one unknown is searched; the intervals come from all three together.
#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/tools/minima.hpp>
#include <cmath>

#include "hazard/meter.hpp"
#include "hazard/valid_range.hpp"

namespace holdpin {

namespace {

constexpr std::size_t kFewest = 5;
constexpr ValidRange kVolume{"volume_m3", "m³", 1, 10'000'000};
constexpr ValidRange kOutdoor{"outdoor_ppm", "ppm", 0, 1000};
constexpr ValidRange kConfidence{"confidence", "", 0.5, 0.999};
constexpr ValidRange kReadings{"number of readings", "", kFewest, 100'000};

// (1 − e^(−x))/x and its derivative by x, with series where they would lose digits.
double gain(double x) { return x > 1e-12 ? -std::expm1(-x) / x : 1; }
double gain_slope(double x) {
    if (x < 1e-3) return -0.5 + x * (1.0 / 3 - x * (1.0 / 8 - x / 30));
    return (std::exp(-x) - gain(x)) / x;
}

// Readings as excess over outdoor air, from the first one on.
struct Series {
    Eigen::VectorXd minutes;
    Eigen::VectorXd excess_ppm;
};

struct Curve {
    double settling_per_min = 0;
    double first_ppm = 0;  // excess at the first reading
    double source_ppm_min = 0;
    double squares = 0;
};

// C(t) = first·e^(−k·t) + source·t·gain(k·t): the best first and source for one k.
Curve best_for(const Series& series, double settling) {
    const Eigen::Index n = series.minutes.size();
    Eigen::MatrixXd design(n, 2);
    for (Eigen::Index i = 0; i < n; ++i) {
        const double t = series.minutes[i];
        design(i, 0) = std::exp(-settling * t);
        design(i, 1) = t * gain(settling * t);
    }
    const Eigen::Vector2d found = design.colPivHouseholderQr().solve(series.excess_ppm);
    const double squares = (design * found - series.excess_ppm).squaredNorm();
    return {settling, found[0], found[1], squares};
}

// The best airflow lies between one change of air in a hundred times the length of the readings and
// one in a hundredth of it; outside, readings of that length cannot tell. Absent at either end.
std::optional<Curve> best_curve(const Series& series) {
    const double length = series.minutes[series.minutes.size() - 1];
    constexpr int kGrid = 60;
    const double low = std::log(0.01 / length);
    const double high = std::log(100 / length);
    const auto at = [&](int i) { return low + (high - low) * i / kGrid; };
    const auto squares = [&](double log_k) { return best_for(series, std::exp(log_k)).squares; };
    int best = 0;
    for (int i = 1; i <= kGrid; ++i) {
        if (squares(at(i)) < squares(at(best))) best = i;
    }
    if (best == 0 || best == kGrid) return std::nullopt;
    constexpr int kBits = 40;
    boost::uintmax_t rounds = 200;
    const auto found =
        boost::math::tools::brent_find_minima(squares, at(best - 1), at(best + 1), kBits, rounds);
    return best_for(series, std::exp(found.first));
}

// Variance of (first, source, settling) for errors of one ppm; absent where they hang together.
std::optional<Eigen::Matrix3d> unit_variance(const Series& series, const Curve& curve) {
    const Eigen::Index n = series.minutes.size();
    Eigen::MatrixXd slopes(n, 3);
    for (Eigen::Index i = 0; i < n; ++i) {
        const double t = series.minutes[i];
        const double x = curve.settling_per_min * t;
        slopes(i, 0) = std::exp(-x);
        slopes(i, 1) = t * gain(x);
        slopes(i, 2) =
            -t * curve.first_ppm * std::exp(-x) + curve.source_ppm_min * t * t * gain_slope(x);
    }
    const Eigen::Vector3d scale = slopes.colwise().norm();
    if (scale.minCoeff() <= 0) return std::nullopt;
    const Eigen::MatrixXd even = slopes * scale.cwiseInverse().asDiagonal();
    const Eigen::FullPivLU<Eigen::Matrix3d> normal(even.transpose() * even);
    if (!normal.isInvertible()) return std::nullopt;
    const Eigen::Matrix3d back = scale.cwiseInverse().asDiagonal();
    return back * normal.inverse() * back;
}

// Neither can be negative: what scatter brings below 0 ends there.
Estimate estimate(double value, double half_width) {
    return {std::max(0.0, value), std::max(0.0, value - half_width), value + half_width};
}

Error no_bend() {
    return Error{ErrorKind::refused, "these readings do not tell the airflow from the source",
                 "readings", "take readings until the rise slows down, or while the room airs out"};
}

Result<Series> series_of(std::span<const AirSample> readings, double outdoor_ppm) {
    TRY(refuse_outside(kReadings, static_cast<double>(readings.size())));
    const auto n = static_cast<Eigen::Index>(readings.size());
    Series series{Eigen::VectorXd(n), Eigen::VectorXd(n)};
    for (Eigen::Index i = 0; i < n; ++i) {
        const AirSample& reading = readings[static_cast<std::size_t>(i)];
        TRY(refuse_outside({"minute", "min", 0, 1e9}, reading.minute));
        TRY(refuse_outside({"ppm", "ppm", 0, 100'000}, reading.ppm));
        series.minutes[i] = reading.minute - readings.front().minute;
        series.excess_ppm[i] = reading.ppm - outdoor_ppm;
        if (i > 0 && series.minutes[i] <= series.minutes[i - 1]) {
            return Error{ErrorKind::invalid, "the readings are not in the order of their times",
                         "readings", "give the earliest first"};
        }
    }
    return series;
}

double end_of(const Series& series, const Curve& curve) {
    const double t = series.minutes[series.minutes.size() - 1];
    const double x = curve.settling_per_min * t;
    return curve.first_ppm * std::exp(-x) + curve.source_ppm_min * t * gain(x);
}

}  // namespace

Result<FittedRoom> fit_room(std::span<const AirSample> readings, const RoomToFit& room) {
    TRY(refuse_outside(kVolume, room.volume_m3));
    TRY(refuse_outside(kOutdoor, room.outdoor_ppm));
    TRY(refuse_outside(kConfidence, room.confidence));
    const Series series = TRY(series_of(readings, room.outdoor_ppm));
    const auto curve = best_curve(series);
    if (!curve) return no_bend();
    const auto variance = unit_variance(series, *curve);
    if (!variance) return no_bend();
    const double freedom = static_cast<double>(readings.size()) - 3;
    const double scatter = std::sqrt(curve->squares / freedom);
    const boost::math::students_t student(freedom);
    const double reach = scatter * boost::math::quantile(student, 0.5 + room.confidence / 2);
    const double lmin = room.volume_m3 / 1000;  // L/min of a ppm/min in this room
    const double m3h = room.volume_m3 * 60;     // m³/h of one change a minute
    FittedRoom fit;
    fit.source_lmin =
        estimate(curve->source_ppm_min * lmin, reach * std::sqrt((*variance)(1, 1)) * lmin);
    fit.airflow_m3h =
        estimate(curve->settling_per_min * m3h, reach * std::sqrt((*variance)(2, 2)) * m3h);
    fit.start_ppm = std::max(0.0, curve->first_ppm + room.outdoor_ppm);
    fit.end_ppm = std::max(0.0, end_of(series, *curve) + room.outdoor_ppm);
    fit.scatter_ppm = scatter;
    fit.readings = static_cast<int>(readings.size());
    if (fit.source_lmin.high < 0) {
        return Error{ErrorKind::refused,
                     "the air gets cleaner than outdoor air and its flow explain", "readings",
                     "check outdoor_ppm and the zero of the meter"};
    }
    return fit;
}

}  // namespace holdpin
