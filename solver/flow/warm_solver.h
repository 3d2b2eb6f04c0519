// Solves farms much like one that is solved already, each from that one's answer.
#pragma once

#include "model/farm/farm.h"
#include "solver/flow/flow_state.h"
#include "solver/nodal/newton.h"

namespace leat::solver {

/// Solves one changed farm after another from the answer of the farm as it is, never from one
/// another's: what comes out does not depend on what was solved before. Its answers are within
/// 1e-10 m, tighter than usual, as they are compared with one another. One thread's own.
class WarmSolver {
 public:
  /// `base` has a usable answer and outlives this.
  explicit WarmSolver(const FlowState& base);

  /// Whether nothing but numbers differs from the base's network.
  [[nodiscard]] bool is_alike(const FarmNetwork& network) const;
  /// The answer of a network that is alike: ordering and symbolic analysis are the base's.
  [[nodiscard]] nodal::Solution solve_alike(const FarmNetwork& network);
  /// The answer of any network of a farm whose first places and pipes are the base's own.
  [[nodiscard]] nodal::Solution solve(const FarmNetwork& network);

 private:
  const FlowState* base_;
  nodal::NodalSolver solver_;
};

/// Builds and solves the network of a farm from the answer of the base; from nothing where that
/// leads to none. The places and pipes of the base are the first of the farm's.
[[nodiscard]] FlowState solve_flow_from(WarmSolver& warm,
                                        const model::Farm& farm,
                                        const Surroundings& surroundings,
                                        const NetworkOptions& options);

}  // namespace leat::solver
