// The linear system a nodal problem leads to, built beside the solver: which unknowns there are and
// what one Newton step's matrix holds. For tests and benchmarks of the parts of a step.
#pragma once

#include <cstddef>
#include <vector>

#include "solver/nodal/linear_step.h"
#include "solver/nodal/problem.h"

namespace leat::tests {

/// Unknown heads and flows of a problem, numbered.
struct NodalPattern {
  std::size_t heads = 0;                   // unknown heads
  std::vector<std::size_t> unknown_of;     // node -> unknown head, or nodal::no_unknown
  std::vector<std::size_t> active;         // edges whose flow is sought
  std::vector<nodal::Coupling> couplings;  // of the active edges
  nodal::MatrixShape shape = nodal::MatrixShape::Symmetric;
};

[[nodiscard]] NodalPattern pattern_of(const nodal::Problem& problem);

/// A problem's state where a cold solve begins: every head at the highest level, every flow at its
/// usual one.
[[nodiscard]] nodal::State cold_state(const nodal::Problem& problem, const NodalPattern& pattern);

/// Head at a node, given or sought; 0 outside.
[[nodiscard]] double head_at(const nodal::Problem& problem,
                             const nodal::State& state,
                             std::size_t node);

/// Fills the matrix of the Newton step at a state, with limits smoothed by `smoothing_m`.
void fill_step(nodal::LinearStep& step,
               const nodal::Problem& problem,
               const NodalPattern& pattern,
               const nodal::State& state,
               double smoothing_m);

}  // namespace leat::tests
