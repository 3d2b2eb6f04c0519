// What stands beside the steps of a priming plan.
#pragma once

#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::solver {

/// Those that apply: pumping the line full instead, the foot valve's price, what air pockets hold
/// back, reaches that run part full, water that parts. The plan has its steps.
[[nodiscard]] std::vector<PrimeRemark> priming_remarks(const model::Farm& farm,
                                                       const PrimePlan& plan,
                                                       const PrimeOptions& options);

}  // namespace leat::solver
