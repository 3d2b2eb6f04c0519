// What to do after a fit, in words: what to measure or look at next; why no copy was written.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/fit/farm_with_cause.h"
#include "solver/fit/fit.h"

namespace leat::render {

/// What to measure or look at next, without a full stop.
[[nodiscard]] std::string fit_next(const model::Farm& farm,
                                   const solver::FitAnswer& answer,
                                   model::UnitSystem units);

/// Why there is no copy with the cause in it, and what to do.
struct CopyProblem {
  std::string text;
  std::string hint;
};
/// `copy` was refused.
[[nodiscard]] CopyProblem copy_problem(const model::Farm& farm,
                                       const solver::FitAnswer& answer,
                                       const solver::CopyWithCause& copy);

}  // namespace leat::render
