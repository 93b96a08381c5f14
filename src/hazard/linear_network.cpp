#include "hazard/linear_network.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <unsupported/Eigen/MatrixFunctions>

namespace holdpin {

namespace {

struct Step {
    double minutes = 0;
    Eigen::MatrixXd e, f, g;
};

// The exponential of {{A·h, 1, 0}, {0, 0, 1}, {0, 0, 0}} holds E, F/h and G/h² in its first row.
Step short_step(const Eigen::MatrixXd& a, double minutes) {
    const Eigen::Index n = a.rows();
    Eigen::MatrixXd block = Eigen::MatrixXd::Zero(3 * n, 3 * n);
    block.topLeftCorner(n, n) = a * minutes;
    block.block(0, n, n, n).setIdentity();
    block.block(n, 2 * n, n, n).setIdentity();
    const Eigen::MatrixXd power = block.exp();
    return {minutes, power.topLeftCorner(n, n), minutes * power.block(0, n, n, n),
            minutes * minutes * power.block(0, 2 * n, n, n)};
}

Step doubled(const Step& half) {
    return {2 * half.minutes, half.e * half.e, half.f + half.e * half.f,
            half.g + half.minutes * half.f + half.e * half.g};
}

Step step_of(const Eigen::MatrixXd& a, double minutes) {
    const double norm = a.cwiseAbs().colwise().sum().maxCoeff() * minutes;
    const int doublings = norm > 0.5 ? static_cast<int>(std::ceil(std::log2(norm / 0.5))) : 0;
    Step step = short_step(a, std::ldexp(minutes, -doublings));
    for (int round = 0; round < doublings; ++round) step = doubled(step);
    return step;
}

Eigen::Map<Eigen::VectorXd> seen(std::vector<double>& numbers) {
    return {numbers.data(), static_cast<Eigen::Index>(numbers.size())};
}

}  // namespace

struct LinearNetwork::Steps {
    Eigen::MatrixXd a;
    std::vector<Step> kept;

    // Lengths that differ only by the rounding of a sum of times count as the same.
    const Step& of(double minutes) {
        for (const Step& step : kept) {
            if (std::abs(step.minutes - minutes) <= 1e-12 * minutes) return step;
        }
        constexpr std::size_t kMostKept = 16;
        if (kept.size() >= kMostKept) kept.erase(kept.begin());
        return kept.emplace_back(step_of(a, minutes));
    }
};

LinearNetwork::LinearNetwork(std::size_t n, const std::vector<double>& a)
    : steps_(std::make_unique<Steps>()) {
    const auto size = static_cast<Eigen::Index>(n);
    using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
    steps_->a = Eigen::Map<const RowMajor>(a.data(), size, size);
}

LinearNetwork::~LinearNetwork() = default;

void LinearNetwork::advance(double minutes, const std::vector<double>& b,
                            std::vector<double>& state, std::vector<double>& integral) {
    if (minutes <= 0) return;
    const Step& step = steps_->of(minutes);
    const Eigen::Map<const Eigen::VectorXd> input(b.data(), static_cast<Eigen::Index>(b.size()));
    seen(integral) += step.f * seen(state) + step.g * input;
    seen(state) = (step.e * seen(state) + step.f * input).eval();
}

}  // namespace holdpin
