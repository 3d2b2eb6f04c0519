// What stands beside the steps of a priming plan.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::solver {

/// Sentences on pumping the line full instead, the foot valve's price, what air pockets hold back,
/// reaches that run part full, and water that parts; those that apply.
[[nodiscard]] std::vector<std::string> priming_remarks(const model::Farm& farm,
                                                       const PrimePlan& plan,
                                                       const PrimeOptions& options,
                                                       model::UnitSystem units);

}  // namespace leat::solver
