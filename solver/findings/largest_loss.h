// What on the way to a place takes the largest part of the fall.
#pragma once

#include <cstddef>

#include "model/farm/farm.h"
#include "solver/answer/reason.h"
#include "solver/flow/flow_state.h"

namespace leat::solver {

/// The level [m] at which a trough or outlet lets water out: that of the float, or of the open end.
[[nodiscard]] double end_level_m(const model::Place& place);

/// What takes most head from the water that runs to `place`, a trough or outlet whose pipe ends at
/// `head_m`: the end itself, or a part of some pipe up the largest flow as far as open water.
[[nodiscard]] LargestLoss largest_loss(const FlowState& state, std::size_t place, double head_m);

}  // namespace leat::solver
