// How a line that needs no priming is filled so that no air stays in it.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::solver {

/// Steps for letting a line fill by itself from its upper end, slowly, its high points open. The
/// plan has all but its steps and remarks.
[[nodiscard]] std::vector<PrimeStep> filling_steps(const model::Farm& farm, const PrimePlan& plan);

}  // namespace leat::solver
