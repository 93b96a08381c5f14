// Exact steps of dC/dt = A·C + b with constant A and b, where A has no negative element off its
// diagonal (rooms that give air to each other). A step of length h needs three matrices,
//   E = e^(A·h),   F = ∫ e^(A·s) ds over 0..h,   G = ∫ F(s) ds over 0..h,
// then C(h) = E·C + F·b, and the integral of C is F·C + G·b. They come from the matrix exponential
// of a block matrix at a short step, which is then doubled; all three are non-negative, so that the
// doubling adds and loses no digits, however stiff A is. Steps of a length that was used are kept.
#pragma once

#include <memory>
#include <vector>

namespace holdpin {

class LinearNetwork {
  public:
    // `a` row by row, size n·n, per minute.
    LinearNetwork(std::size_t n, const std::vector<double>& a);
    ~LinearNetwork();

    // Moves `state` on by `minutes` under the constant input `b`, and adds its integral to
    // `integral` (ppm·min).
    void advance(double minutes, const std::vector<double>& b, std::vector<double>& state,
                 std::vector<double>& integral);

  private:
    struct Steps;  // keeps Eigen out of this header
    std::unique_ptr<Steps> steps_;
};

}  // namespace holdpin
