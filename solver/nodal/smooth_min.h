// Smoothed min and max of two residuals, for limits written as complementarity.
#pragma once

#include <algorithm>
#include <cmath>

namespace leat::nodal {

/// A value with its partial derivatives by the two arguments.
struct SmoothValue {
  double value = 0.0;
  double by_first = 0.0;
  double by_second = 0.0;
};

/// Fischer-Burmeister function a + b - sqrt(a^2 + b^2 + 2 mu^2). At mu = 0 it is zero exactly where
/// min(a, b) is, and has the sign of min(a, b); both derivatives lie in [0, 2].
/// Source: Fischer 1992; smoothed as in Chen, Chen and Kanzow 2000 and Qi, Sun and Zhou 2000.
[[nodiscard]] inline SmoothValue smooth_min(double a, double b, double mu) {
  const double root = std::sqrt(a * a + b * b + 2.0 * mu * mu);
  if (root == 0.0) {
    return {0.0, 1.0 - std::sqrt(0.5), 1.0 - std::sqrt(0.5)};
  }
  // (a + b)^2 - root^2 = 2 (ab - mu^2): without cancellation where a and b are positive.
  const double sum = a + b;
  const double value = sum > 0.0 ? 2.0 * (a * b - mu * mu) / (sum + root) : sum - root;
  return {value, 1.0 - a / root, 1.0 - b / root};
}

/// The mirror image: sign and zeros of max(a, b).
[[nodiscard]] inline SmoothValue smooth_max(double a, double b, double mu) {
  const SmoothValue mirrored = smooth_min(-a, -b, mu);
  return {-mirrored.value, mirrored.by_first, mirrored.by_second};
}

}  // namespace leat::nodal
