// Checks a solved network against what water must do, written as plain cases rather than as the
// solver's own min and max.
#pragma once

#include <optional>
#include <string>

#include "solver/flow/flow_state.h"

namespace leat::tests {

/// The first law that the state breaks, in words; none where all hold. Flow balance at every node
/// to 1e-9 of the largest flow; every edge's condition to `head_tolerance_m`.
[[nodiscard]] std::optional<std::string> broken_law(const solver::FlowState& state,
                                                    double head_tolerance_m = 1e-6);

}  // namespace leat::tests
