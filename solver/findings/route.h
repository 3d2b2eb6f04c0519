// The way back from a place or valve to the nearest open water: where a pressure wave turns round,
// and what stands between a household tap and the water it comes from.
#pragma once

#include <cstddef>
#include <vector>

#include "solver/flow/flow_state.h"

namespace leat::solver {

/// One pipe of a route, or a part of one.
struct RouteStep {
  std::size_t pipe = 0;
  double length_m = 0.0;
};

/// Pipes from a place to the open water nearest along the pipes, the first at the place. Pipes with
/// a shut valve are no way, nor is `without`. Empty for open water itself and where no way leads to
/// any.
[[nodiscard]] std::vector<RouteStep> route_to_open_water(const FlowState& state,
                                                         std::size_t place,
                                                         std::size_t without = no_index);

}  // namespace leat::solver
