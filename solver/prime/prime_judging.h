// The second part of a priming study: whether the line may be filled, and what it has left.
#pragma once

#include <optional>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::solver {

/// Why the line should not be primed or filled; none where it may be. The plan is read, its flags
/// are the line's own.
[[nodiscard]] std::optional<PrimeRefusal> reason_not_to_fill(const model::Farm& farm,
                                                             const PrimePlan& plan);

/// Absolute head less vapour head at the worst summit of the line while it runs [m].
[[nodiscard]] std::optional<double> least_margin_m(const model::Farm& farm, const PrimePlan& plan);

}  // namespace leat::solver
