#include "solver/flow/warm_cases.h"

namespace leat::solver {

BaseCases base_cases(const model::Farm& farm, std::optional<model::Month> month) {
  const Surroundings surroundings = surroundings_of(farm, month);
  NetworkOptions options;
  options.month = month;
  BaseCases base;
  base.needs = solve_flow(farm, surroundings, options);
  options.load_case = LoadCase::Wide;
  base.wide = solve_flow(farm, surroundings, options);
  return base;
}

WarmCases::WarmCases(const BaseCases& base) {
  if (base.needs.solution.report.is_usable()) {
    needs_.emplace(base.needs);
  }
  if (base.wide.solution.report.is_usable()) {
    wide_.emplace(base.wide);
  }
}

WarmSolver* WarmCases::of(LoadCase load_case) {
  std::optional<WarmSolver>& solver = load_case == LoadCase::Wide ? wide_ : needs_;
  return solver && load_case != LoadCase::Static ? &*solver : nullptr;
}

}  // namespace leat::solver
