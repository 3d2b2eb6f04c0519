// How far a summit that parts would have to be lowered.
#pragma once

#include <cstddef>
#include <optional>

#include "solver/flow/flow_state.h"

namespace leat::solver {

/// Metres by which the vertex at `at_m` of a pipe's path must be lowered until no summit of that
/// pipe comes within the near-vapour margin, a storm's low pressure allowed for. Found by solving
/// the lowered farm again; empty where lowering it to the pipe's lower end does not help.
[[nodiscard]] std::optional<double> lowering_needed_m(const FlowState& state,
                                                      std::size_t pipe,
                                                      double at_m);

}  // namespace leat::solver
