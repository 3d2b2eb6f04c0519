// The steps by which a siphon is poured full at its summit and started.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::solver {

/// First to last; each at a thing of the file. The plan has all but its steps and remarks.
[[nodiscard]] std::vector<PrimeStep> priming_steps(const model::Farm& farm, const PrimePlan& plan);

/// How a branch is let in again when the line runs, or is full.
[[nodiscard]] PrimeStep let_in(const model::Farm& farm, const LineBranch& branch);

}  // namespace leat::solver
