// Numbers for property tests: drawn from a seeded stream, so that a failure names its seed and
// round.
#pragma once

#include <cmath>

#include "base/random.hpp"

namespace holdpin {

class Draw {
  public:
    explicit Draw(std::uint64_t seed) : random_(seed) {}

    double between(double low, double high) {
        return low + (high - low) * random_.below(1'000'000'000) / 999'999'999.0;
    }
    // Evenly over the orders of magnitude; `low` above 0.
    double magnitude(double low, double high) {
        return std::exp(between(std::log(low), std::log(high)));
    }
    // Normal with deviation 1: twelve even numbers less six.
    double noise() {
        double sum = -6;
        for (int i = 0; i < 12; ++i) sum += between(0, 1);
        return sum;
    }

  private:
    SeededRandom random_;
};

}  // namespace holdpin
