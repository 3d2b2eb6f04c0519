// Newton's method on heads and flows together, with limits smoothed and the smoothing driven to
// nothing. See METHOD.md, section 1.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "solver/nodal/problem.h"
#include "solver/nodal/solve_report.h"

namespace leat::nodal {

/// What the iteration may do and when it is content. Each default is explained in METHOD.md.
struct SolveOptions {
  int iteration_limit = 1500;        // over all restarts
  double head_tolerance_m = 1e-8;    // every edge: |exact residual| <= this + rounding
  double balance_tolerance = 1e-10;  // every node: |imbalance| <= this x the largest flow
  double scale_s_m2 = 1e5;           // S, the first one tried
  double start_smoothing_m = 1.0;    // mu of a cold start
  double warm_smoothing_m = 1e-4;    // mu of a warm start
  bool small_change = true;          // a warm start tries full steps without smoothing first
};

struct Solution {
  State state;
  std::vector<bool> reached;  // per node: some supply can reach it
  SolveReport report;
};

struct Workspace;

/// Solves a network whose pattern is used again and again: search, ordering and symbolic analysis
/// are done once, here. Later problems must have the same nodes and edges (kinds, ends, closed).
class NodalSolver {
 public:
  explicit NodalSolver(const Problem& problem);
  ~NodalSolver();
  NodalSolver(NodalSolver&&) noexcept;
  NodalSolver& operator=(NodalSolver&&) noexcept;
  NodalSolver(const NodalSolver&) = delete;
  NodalSolver& operator=(const NodalSolver&) = delete;

  /// Solves from a cold start, or from `warm`, the answer of a problem much like this one (its NaN
  /// heads begin as in a cold start). Where that is no small change after all, `second`, another
  /// such answer, is tried in its place.
  [[nodiscard]] Solution solve(const Problem& problem,
                               const SolveOptions& options,
                               const State* warm = nullptr,
                               const State* second = nullptr);

 private:
  class Attempt;
  std::unique_ptr<Workspace> workspace_;
};

/// Solves one network once.
[[nodiscard]] Solution solve(const Problem& problem, const SolveOptions& options = {});

}  // namespace leat::nodal
