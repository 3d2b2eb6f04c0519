#include "solver/flow/warm_solver.h"

#include "solver/flow/carried_start.h"
#include "solver/flow/static_heads.h"
#include "solver/nodal/pattern.h"

namespace leat::solver {

namespace {

constexpr double head_tolerance_m = 1e-10;
/// How softly limits are taken where a farm has other pipes or other limits than the base.
constexpr double other_pattern_smoothing_m = 0.1;

}  // namespace

WarmSolver::WarmSolver(const FlowState& base) : base_(&base), solver_(base.network->problem) {}

bool WarmSolver::is_alike(const FarmNetwork& network) const {
  return nodal::have_one_pattern(base_->network->problem, network.problem);
}

nodal::Solution WarmSolver::solve_alike(const FarmNetwork& network) {
  nodal::SolveOptions how;
  how.head_tolerance_m = head_tolerance_m;
  return solver_.solve(network.problem, how, &base_->solution.state);
}

nodal::Solution WarmSolver::solve(const FarmNetwork& network) {
  if (is_alike(network)) {
    return solve_alike(network);
  }
  nodal::SolveOptions how;
  how.head_tolerance_m = head_tolerance_m;
  how.warm_smoothing_m = other_pattern_smoothing_m;
  const nodal::State start = carried_over(*base_, network);
  return nodal::NodalSolver(network.problem).solve(network.problem, how, &start);
}

FlowState solve_flow_from(WarmSolver& warm,
                          const model::Farm& farm,
                          const Surroundings& surroundings,
                          const NetworkOptions& options) {
  FlowState state;
  state.farm = &farm;
  state.surroundings = surroundings;
  state.options = options;
  state.network = network_of(farm, surroundings, options);
  state.solution = warm.solve(*state.network);
  if (!state.solution.report.is_usable()) {
    return solve_flow(farm, surroundings, options);
  }
  state.static_head_m = static_heads_m(farm, *state.network, options.month);
  read_heads(state);
  return state;
}

}  // namespace leat::solver
