// From many draws to few figures: percentiles, and which input makes most of the spread.
#pragma once

#include <cstddef>
#include <span>
#include <utility>
#include <vector>

namespace leat::solver {

/// Causes of less than this share of a variance are not told.
inline constexpr double least_told_share = 0.01;
/// A variance of shares met, or of levels [m2], below this is rounding.
inline constexpr double least_variance = 1e-8;

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

/// An input by its index, and the share of the variance that it explains.
struct ExplainingInput {
  std::size_t input = 0;
  double share = 0.0;
};

/// The inputs whose deviates explain `values`, the one that explains most first, each to first
/// order and after those before it. For few draws of many inputs: one is told only where all of
/// them, had none any bond with the values, would show as much in 5 of 100 cases (Student's test of
/// a correlation, its quantile that of the normal distribution, Bonferroni's bound). A row of
/// `deviates` per input, as long as `values`. Empty for fewer than ten draws.
[[nodiscard]] std::vector<ExplainingInput> explaining_inputs(
    std::span<const double> values, std::vector<std::vector<double>> deviates);

}  // namespace leat::solver
