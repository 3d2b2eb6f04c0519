// Where to begin solving a farm that has changed a little: the answer before the change.
#pragma once

#include "solver/flow/flow_state.h"

namespace leat::solver {

/// Heads and flows of `before`, put on the nodes and edges of `network`: the same farm with other
/// tees opened to the air or other lines broken, or one changed otherwise whose first places and
/// pipes are those of `before`. Ends in a newly opened tee begin at the tee's level. Heads that
/// were not known are NaN. Not an answer: a start for the solver.
[[nodiscard]] nodal::State carried_over(const FlowState& before, const FarmNetwork& network);

}  // namespace leat::solver
