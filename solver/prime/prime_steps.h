// The sentences of a priming plan.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::solver {

/// Steps for pouring a siphon full at its summit, first to last; each names a thing of the file.
[[nodiscard]] std::vector<PrimeStep> priming_steps(const model::Farm& farm,
                                                   const PrimePlan& plan,
                                                   model::UnitSystem units);

}  // namespace leat::solver
