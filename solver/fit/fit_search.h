// One cause fitted to the readings: its best size, how far the size may be off, how well it
// explains, and the evidence for it.
#pragma once

#include <vector>

#include "solver/fit/fit_site.h"
#include "solver/fit/measurement_model.h"

namespace leat::solver {

/// A reading to be explained: what was read, with its standard error [unit of the reading].
struct GivenReading {
  double value = 0.0;
  double error = 1.0;
};

/// Sum of squared differences, each over its error. `computed` may hold more than was given.
[[nodiscard]] double chi_square_of(const std::vector<double>& computed,
                                   const std::vector<GivenReading>& given);

/// A cause at its best size.
struct FittedCause {
  FitSite site;
  double size = 0.0;
  double low = 0.0;   // 95 % interval of the size by profile likelihood,
  double high = 0.0;  // cut at the sizes that were tried
  double chi_square = 0.0;
  double log_evidence = 0.0;         // with the cause's weight
  double chance = 0.0;               // among all that may be wrong, once that is known
  std::vector<double> computed;      // all spots of the model at the best size,
  std::vector<double> computed_low;  // and at the ends of the interval; empty: no balance there
  std::vector<double> computed_high;
};

/// Looks along the sizes of one cause for the one that explains the readings best: a coarse walk
/// over all sizes, then Gauss-Newton steps from its best one (derivatives by differences of
/// solves), held between that one's neighbours. The interval and evidence are not set.
[[nodiscard]] FittedCause best_size(ReadingModel& model,
                                    const FitSite& site,
                                    const std::vector<GivenReading>& given);

/// Finds the interval: sizes at which the sum of squares is 3.84 above its least (the 95 % point of
/// chi-square with one degree of freedom, Wilks 1938). Sets `log_evidence` by Laplace's rule on
/// each side: chance beforehand of the interval's sizes, times how well they explain.
void find_interval(ReadingModel& model, const std::vector<GivenReading>& given, FittedCause& cause);

}  // namespace leat::solver
