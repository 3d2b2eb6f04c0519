// The smoothed min and max that limits are written with.
#include "solver/nodal/smooth_min.h"

#include <cmath>
#include <random>

#include <catch2/catch.hpp>

namespace leat::tests {

using nodal::smooth_max;
using nodal::smooth_min;
using nodal::SmoothValue;

namespace {

/// Central difference of the value by its first or second argument.
template <class Function>
std::pair<double, double> differences(const Function& function, double a, double b, double mu) {
  const double step = 1e-6 * (std::abs(a) + std::abs(b) + mu);
  return {(function(a + step, b, mu).value - function(a - step, b, mu).value) / (2.0 * step),
          (function(a, b + step, mu).value - function(a, b - step, mu).value) / (2.0 * step)};
}

int sign(double value) {
  return value > 0.0 ? 1 : value < 0.0 ? -1 : 0;
}

}  // namespace

TEST_CASE("without smoothing the sign and the zeros are those of min and max") {
  for (const double a : {-3.0, -1e-9, 0.0, 1e-9, 2.0, 1e6}) {
    for (const double b : {-5.0, -1e-9, 0.0, 1e-9, 0.5, 1e6}) {
      CAPTURE(a, b);
      CHECK(sign(smooth_min(a, b, 0.0).value) == sign(std::min(a, b)));
      CHECK(sign(smooth_max(a, b, 0.0).value) == sign(std::max(a, b)));
    }
  }
}

TEST_CASE("one small residual beside a great one is kept without cancellation") {
  // a + b - sqrt(a^2 + b^2) tends to the lesser as the greater grows.
  CHECK(smooth_min(1e-9, 1e6, 0.0).value == Approx(1e-9).epsilon(1e-6));
  CHECK(smooth_max(-1e-9, -1e6, 0.0).value == Approx(-1e-9).epsilon(1e-6));
}

TEST_CASE("the smoothed value lies below the sharp one by no more than the smoothing") {
  for (const double mu : {1e-6, 1e-2, 1.0}) {
    for (const double a : {-2.0, 0.0, 0.3}) {
      for (const double b : {-1.0, 0.0, 4.0}) {
        CAPTURE(a, b, mu);
        const double sharp = smooth_min(a, b, 0.0).value;
        const double smooth = smooth_min(a, b, mu).value;
        CHECK(smooth < sharp + 1e-15);
        CHECK(smooth >= sharp - std::sqrt(2.0) * mu - 1e-12);
      }
    }
  }
}

TEST_CASE("the stated derivatives are those of the value") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> size(-6.0, 3.0);
  std::bernoulli_distribution negative(0.5);
  const auto any = [&] { return (negative(random) ? -1.0 : 1.0) * std::pow(10.0, size(random)); };
  for (int i = 0; i < 2000; ++i) {
    const double a = any();
    const double b = any();
    const double mu = 0.05 * (std::abs(a) + std::abs(b));
    CAPTURE(a, b, mu);
    for (const auto& function : {smooth_min, smooth_max}) {
      const SmoothValue value = function(a, b, mu);
      const auto [by_first, by_second] = differences(function, a, b, mu);
      REQUIRE(value.by_first == Approx(by_first).margin(1e-7));
      REQUIRE(value.by_second == Approx(by_second).margin(1e-7));
      REQUIRE(value.by_first >= 0.0);
      REQUIRE(value.by_first <= 2.0);
      REQUIRE(value.by_second >= 0.0);
      REQUIRE(value.by_second <= 2.0);
    }
  }
}

TEST_CASE("where both residuals vanish the derivatives are still usable") {
  const SmoothValue value = smooth_min(0.0, 0.0, 0.0);
  CHECK(value.value == 0.0);
  CHECK(value.by_first > 0.2);
  CHECK(value.by_second > 0.2);
}

}  // namespace leat::tests
