// What pumps and rams do in a solved network.
#pragma once

#include <vector>

#include "solver/answer/steady_answer.h"
#include "solver/flow/flow_state.h"

namespace leat::solver {

/// Figures of every pump, then of every ram, in the farm's order. In a network without flow (the
/// static case) all stand still.
[[nodiscard]] std::vector<LifterAnswer> lifter_answers(const FlowState& state);

}  // namespace leat::solver
