#include "solver/static_heads.h"

#include <algorithm>
#include <queue>
#include <utility>

namespace leat::solver {

namespace {

using nodal::Edge;
using nodal::EdgeKind;

/// The level at which a place's own still water stands, none where it has none.
std::optional<double> own_level_m(const model::Place& place, std::optional<model::Month> month) {
  if (const auto* tank = std::get_if<model::Tank>(&place.data)) {
    return in_metres(tank->floor + tank->full);
  }
  return surface_m(place, month);
}

bool stays_open(const Edge& edge) {
  return !edge.closed && edge.up != nodal::outside && edge.down != nodal::outside &&
         edge.kind != EdgeKind::Discharge && edge.kind != EdgeKind::CappedDischarge &&
         edge.kind != EdgeKind::HeldInlet;
}

}  // namespace

std::vector<std::optional<double>> static_heads_m(const model::Farm& farm,
                                                  const FarmNetwork& network,
                                                  std::optional<model::Month> month) {
  const nodal::Problem& problem = network.problem;
  std::vector<std::vector<std::size_t>> reachable(problem.nodes.size());
  for (const Edge& edge : problem.edges) {
    if (!stays_open(edge)) {
      continue;
    }
    reachable[edge.up].push_back(edge.down);
    if (edge.kind == EdgeKind::Link || edge.kind == EdgeKind::Crest) {
      reachable[edge.down].push_back(edge.up);
    }
  }
  // A vent's top is the highest its node can stand.
  std::vector<std::optional<double>> brim(problem.nodes.size());
  for (const Edge& edge : problem.edges) {
    if (edge.kind == EdgeKind::Discharge && edge.up != nodal::outside && !edge.has_loss) {
      brim[edge.up] = edge.level_m;
    }
  }
  std::vector<std::optional<double>> head(problem.nodes.size());
  // Open water stands at its own level: what comes from above spills or spreads there.
  std::vector<std::optional<double>> own(problem.nodes.size());
  using Level = std::pair<double, std::size_t>;
  std::priority_queue<Level> open;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const std::size_t node = network.places[i].node;
    own[node] = own_level_m(farm.places[i], month);
    if (own[node]) {
      open.emplace(*own[node], node);
    }
  }
  while (!open.empty()) {
    double level = open.top().first;
    const std::size_t node = open.top().second;
    open.pop();
    if (head[node] || (own[node] && *own[node] != level)) {
      continue;
    }
    if (brim[node] && *brim[node] < level) {
      level = *brim[node];
    }
    head[node] = level;
    for (const std::size_t next : reachable[node]) {
      if (!head[next]) {
        open.emplace(level, next);
      }
    }
  }
  return head;
}

std::vector<std::optional<StaticPressure>> highest_static_pressures(
    const model::Farm& farm,
    const FarmNetwork& network,
    const Surroundings& surroundings,
    const std::vector<std::optional<double>>& heads_m) {
  std::vector<std::optional<StaticPressure>> highest(farm.pipes.size());
  for (std::size_t pipe = 0; pipe < farm.pipes.size(); ++pipe) {
    const PipeEdges& edges = network.pipes[pipe];
    for (std::size_t i = 0; i < edges.cut.stretches.size(); ++i) {
      const std::optional<double>& start = heads_m[edges.start_node[i]];
      const std::optional<double>& end = heads_m[edges.end_node[i]];
      if (!start && !end) {
        continue;
      }
      const double head = std::max(start.value_or(-1e9), end.value_or(-1e9));
      const Stretch& stretch = edges.cut.stretches[i];
      for (const CoursePoint& point : edges.cut.course.points) {
        if (point.along_m < stretch.start.along_m || point.along_m > stretch.end.along_m) {
          continue;
        }
        const double pressure = surroundings.pressure_of_head_Pa(head - point.elevation_m);
        if (!highest[pipe] || pressure > highest[pipe]->pressure_Pa) {
          highest[pipe] = StaticPressure{pressure, point.at_m, point.elevation_m, head};
        }
      }
    }
  }
  return highest;
}

}  // namespace leat::solver
