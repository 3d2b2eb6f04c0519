// What a foot, a tenth or a size of each number of the file does, to first order.
#pragma once

#include <vector>

#include "solver/flow/flow_state.h"
#include "solver/improve/improve.h"
#include "solver/improve/possible_changes.h"

namespace leat::solver {

/// Largest first, without those that do nothing; by one adjoint solve (sensitivities.h). Empty
/// where the derivatives are not known.
[[nodiscard]] std::vector<SmallChange> small_changes(const ChangeAim& aim, const FlowState& state);

}  // namespace leat::solver
