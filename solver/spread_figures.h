// From many draws to few figures: percentiles, and which input makes most of the spread.
#pragma once

#include <span>
#include <utility>
#include <vector>

namespace leat::solver {

/// The value below which a share (0 to 1) of the values lie, straight between the two nearest
/// (Hyndman and Fan 1996, type 7). `values` is put in order; at least one value.
[[nodiscard]] double percentile(std::vector<double>& values, double share);

/// Mean and variance (divided by n - 1; 0 for fewer than two values).
struct Moments {
  double mean = 0.0;
  double variance = 0.0;
};
[[nodiscard]] Moments moments_of(std::span<const double> values);

/// The share of a value's variance that a line in `deviates` explains: the squared correlation,
/// less what so many draws of chance alone would show, 0 to 1. 0 for fewer than ten draws.
[[nodiscard]] double explained_share(std::span<const double> values,
                                     std::span<const double> deviates);

}  // namespace leat::solver
