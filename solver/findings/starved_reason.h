// Why a trough or outlet goes short, in one true sentence.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/flow/flow_state.h"
#include "solver/flow/status_changes.h"

namespace leat::solver {

/// The reason why `place` gets less than its need, without the figures of the need itself:
/// "its float stands 6 ft above the running grade line at gate tee". Distinguishes: too high, too
/// far for the pipe, spring short, valve part open or shut, one-way against the flow, siphon
/// broken, seat too small.
[[nodiscard]] std::string starved_reason(const FlowState& state,
                                         std::size_t place,
                                         const std::vector<BrokenLine>& broken,
                                         model::UnitSystem units);

}  // namespace leat::solver
