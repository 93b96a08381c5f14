// Asserting a published number: to half a unit in its last printed digit, or to a share of it.
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "base/result.hpp"

namespace holdpin {

inline bool near(double value, double published, double tolerance) {
    return std::fabs(value - published) <= tolerance * (1 + 1e-9);
}
inline bool near_share(double value, double published, double share) {
    return near(value, published, std::fabs(published) * share);
}

constexpr double kNotANumber = std::numeric_limits<double>::quiet_NaN();
constexpr double kEndless = std::numeric_limits<double>::infinity();

// The value of a Result, or the end of the test with the sentence of its error.
template <typename T>
T must(const Result<T>& result) {
    REQUIRE_MESSAGE(result.ok(), (result.ok() ? "" : result.error().sentence()));
    return result.value();
}

}  // namespace holdpin
