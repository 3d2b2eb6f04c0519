#include "solver/uncertainty/spread_figures.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

#include "solver/uncertainty/sampled_farm.h"

namespace leat::solver {

namespace {

constexpr std::size_t fewest_draws = 10;
/// How often inputs without any bond may be taken for causes, all together.
constexpr double by_chance_share = 0.05;

double product(std::span<const double> a, std::span<const double> b) {
  return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

void centre(std::span<double> values) {
  const double mean = moments_of(values).mean;
  for (double& value : values) {
    value -= mean;
  }
}

/// Takes out of `values` what goes along `along` (both about their means).
void take_out(std::span<double> values, std::span<const double> along) {
  const double share = product(values, along) / product(along, along);
  for (std::size_t i = 0; i < values.size(); ++i) {
    values[i] -= share * along[i];
  }
}

double squared_correlation(std::span<const double> a, std::span<const double> b) {
  const double squares = product(a, a) * product(b, b);
  const double together = product(a, b);
  return squares > 0.0 ? std::min(1.0, together * together / squares) : 0.0;
}

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

std::vector<ExplainingInput> explaining_inputs(std::span<const double> values,
                                               std::vector<std::vector<double>> deviates) {
  std::vector<ExplainingInput> found;
  std::vector<double> rest(values.begin(), values.end());
  centre(rest);
  const double whole = product(rest, rest);
  if (values.size() < fewest_draws || deviates.empty() || !(whole > 0.0)) {
    return found;
  }
  for (std::vector<double>& row : deviates) {
    centre(row);
  }
  std::vector<bool> taken(deviates.size(), false);
  const double quantile =
      normal_quantile(1.0 - 0.5 * by_chance_share / static_cast<double>(deviates.size()));
  while (found.size() < deviates.size() && values.size() >= fewest_draws + found.size()) {
    std::size_t best = 0;
    double most = 0.0;
    for (std::size_t i = 0; i < deviates.size(); ++i) {
      const double here = taken[i] ? 0.0 : squared_correlation(rest, deviates[i]);
      if (here > most) {
        most = here;
        best = i;
      }
    }
    const auto freedom = static_cast<double>(values.size() - 2 - found.size());
    if (!(most > quantile * quantile / (quantile * quantile + freedom))) {
      break;
    }
    const double before = product(rest, rest);
    const std::vector<double> along = deviates[best];
    taken[best] = true;
    take_out(rest, along);
    for (std::size_t i = 0; i < deviates.size(); ++i) {
      if (!taken[i]) {
        take_out(deviates[i], along);
      }
    }
    found.push_back({best, (before - product(rest, rest)) / whole});
    if (!(product(rest, rest) > 1e-12 * whole)) {
      break;
    }
  }
  return found;
}

}  // namespace leat::solver
