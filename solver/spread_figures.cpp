#include "solver/spread_figures.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace leat::solver {

namespace {

constexpr std::size_t fewest_draws = 10;

}  // namespace

double percentile(std::vector<double>& values, double share) {
  std::sort(values.begin(), values.end());
  const double rank = share * static_cast<double>(values.size() - 1);
  const auto below = static_cast<std::size_t>(rank);
  const std::size_t above = std::min(below + 1, values.size() - 1);
  const double part = rank - static_cast<double>(below);
  return values[below] + part * (values[above] - values[below]);
}

Moments moments_of(std::span<const double> values) {
  Moments moments;
  for (const double value : values) {
    moments.mean += value / static_cast<double>(values.size());
  }
  if (values.size() < 2) {
    return moments;
  }
  for (const double value : values) {
    const double off = value - moments.mean;
    moments.variance += off * off / static_cast<double>(values.size() - 1);
  }
  return moments;
}

double explained_share(std::span<const double> values, std::span<const double> deviates) {
  const std::size_t count = values.size();
  if (count < fewest_draws) {
    return 0.0;
  }
  const Moments value = moments_of(values);
  const Moments deviate = moments_of(deviates);
  if (!(value.variance > 0.0) || !(deviate.variance > 0.0)) {
    return 0.0;
  }
  double together = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    together += (values[i] - value.mean) * (deviates[i] - deviate.mean);
  }
  together /= static_cast<double>(count - 1);
  const double squared = together * together / (value.variance * deviate.variance);
  // Of n draws without any bond the squared correlation is 1 / (n - 1) in the mean.
  const double by_chance = (1.0 - squared) / static_cast<double>(count - 2);
  return std::clamp(squared - by_chance, 0.0, 1.0);
}

}  // namespace leat::solver
