#include "solver/findings/route.h"

#include <algorithm>
#include <limits>
#include <queue>
#include <utility>

namespace leat::solver {

std::vector<RouteStep> route_to_open_water(const FlowState& state,
                                           std::size_t place,
                                           std::size_t without) {
  const model::Farm& farm = *state.farm;
  constexpr double far = std::numeric_limits<double>::infinity();
  std::vector<double> distance(farm.places.size(), far);
  std::vector<std::size_t> reached_by(farm.places.size(), no_index);
  using Reached = std::pair<double, std::size_t>;
  std::priority_queue<Reached, std::vector<Reached>, std::greater<>> open;
  distance[place] = 0.0;
  open.emplace(0.0, place);
  while (!open.empty()) {
    const double so_far = open.top().first;
    std::size_t here = open.top().second;
    open.pop();
    if (so_far > distance[here]) {
      continue;
    }
    if (model::is_open_water(farm.places[here])) {
      std::vector<RouteStep> route;
      while (here != place) {
        const std::size_t pipe = reached_by[here];
        route.push_back({pipe, state.network->pipes[pipe].cut.course.length_m});
        here = farm.pipes[pipe].from == here ? farm.pipes[pipe].to : farm.pipes[pipe].from;
      }
      std::reverse(route.begin(), route.end());
      return route;
    }
    for (const std::size_t i : state.network->pipes_of.at(here)) {
      const model::Pipe& pipe = farm.pipes[i];
      if (i == without || has_shut_valve(state.network->pipes[i].cut)) {
        continue;
      }
      const std::size_t next = pipe.from == here ? pipe.to : pipe.from;
      const double reach = so_far + state.network->pipes[i].cut.course.length_m;
      if (reach < distance[next]) {
        distance[next] = reach;
        reached_by[next] = i;
        open.emplace(reach, next);
      }
    }
  }
  return {};
}

}  // namespace leat::solver
