// What on the way to a place takes the largest part of the fall.
#pragma once

#include <cstddef>

#include "solver/answer/reason.h"
#include "solver/flow/flow_state.h"

namespace leat::solver {

/// What takes most head from the water that runs to `place`, a trough or outlet whose pipe ends at
/// `head_m`: the end itself, or a part of some pipe up the largest flow as far as open water.
[[nodiscard]] LargestLoss largest_loss(const FlowState& state, std::size_t place, double head_m);

}  // namespace leat::solver
