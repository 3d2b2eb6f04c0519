#include "solver/findings/lower_summit.h"

#include <algorithm>
#include <cmath>

#include "solver/findings/states.h"
#include "solver/flow/place_answers.h"

namespace leat::solver {

namespace {

constexpr int halvings = 30;
/// Each halving is a solve, and the sentence rounds up to a tenth of a foot.
constexpr double fine_enough_m = 0.01;

/// Whether all summits of the pipe hold in the farm as it is now lowered.
bool summits_hold(const model::Farm& lowered, const FlowState& state, std::size_t pipe) {
  const FlowState solved = solve_flow(lowered, state.surroundings, state.options);
  if (!solved.solution.report.is_usable()) {
    return false;
  }
  const double storm_m =
      storm_share * state.surroundings.head_of_pressure_m(state.surroundings.air_pressure_Pa);
  const std::vector<SummitAnswer> summits = pipe_answer(solved, pipe).summits;
  return std::all_of(summits.begin(), summits.end(), [&](const SummitAnswer& summit) {
    return !summit.parted && summit.margin_m && *summit.margin_m >= near_vapour_margin_m &&
           *summit.margin_m > storm_m;
  });
}

}  // namespace

std::optional<double> lowering_needed_m(const FlowState& state, std::size_t pipe, double at_m) {
  const std::vector<model::PathPoint>& path = state.farm->pipes[pipe].path;
  const auto found = std::find_if(path.begin(), path.end(), [&](const model::PathPoint& point) {
    return std::abs(in_metres(point.distance) - at_m) < 1e-9;
  });
  if (found == path.end()) {
    return std::nullopt;
  }
  const auto vertex = static_cast<std::size_t>(found - path.begin());
  const double bottom_m =
      std::min(in_metres(path.front().elevation), in_metres(path.back().elevation));
  double high = in_metres(found->elevation) - bottom_m;
  model::Farm lowered = *state.farm;
  const auto holds = [&](double by_m) {
    lowered.pipes[pipe].path[vertex].elevation = found->elevation - metres(by_m);
    return summits_hold(lowered, state, pipe);
  };
  if (high <= 0.0 || !holds(high)) {
    return std::nullopt;
  }
  double low = 0.0;
  for (int i = 0; i < halvings && high - low > fine_enough_m; ++i) {
    const double middle = 0.5 * (low + high);
    (holds(middle) ? high : low) = middle;
  }
  return high;
}

}  // namespace leat::solver
