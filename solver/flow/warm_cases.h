// The running load cases of a farm as it is, from which farms with one change are solved.
#pragma once

#include <optional>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/flow/flow_state.h"
#include "solver/flow/warm_solver.h"

namespace leat::solver {

/// The farm's first rounds, no line broken and no tee open. Read by all threads, changed by none.
struct BaseCases {
  FlowState needs;
  FlowState wide;
};

/// Solves both. `farm` must outlive what comes out.
[[nodiscard]] BaseCases base_cases(const model::Farm& farm, std::optional<model::Month> month);

/// One thread's own solvers of the cases.
class WarmCases {
 public:
  /// `base` must outlive this.
  explicit WarmCases(const BaseCases& base);

  /// The solver of a running case; none where the base has no answer in it.
  [[nodiscard]] WarmSolver* of(LoadCase load_case);

 private:
  std::optional<WarmSolver> needs_;
  std::optional<WarmSolver> wide_;
};

}  // namespace leat::solver
