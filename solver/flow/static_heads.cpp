#include "solver/flow/static_heads.h"

#include <algorithm>
#include <queue>
#include <utility>

#include "solver/hydrology/ram.h"

namespace leat::solver {

namespace {

using nodal::Edge;
using nodal::EdgeKind;
using Heads = std::vector<std::optional<double>>;  // by node

/// The level at which a place's own still water stands, none where it has none.
std::optional<double> own_level_m(const model::Place& place, std::optional<model::Month> month) {
  return model::is_tank(place) ? std::optional(in_metres(*model::brim_of(place)))
                               : surface_m(place, month);
}

bool stays_open(const Edge& edge) {
  return !edge.closed && edge.up != nodal::outside && edge.down != nodal::outside &&
         edge.kind != EdgeKind::Discharge && edge.kind != EdgeKind::CappedDischarge &&
         edge.kind != EdgeKind::HeldInlet && edge.kind != EdgeKind::Pump;
}

/// The search for still water's heads, run again for every thing that lifts water.
class StillWater {
 public:
  StillWater(const model::Farm& farm, const FarmNetwork& network, std::optional<model::Month> month)
      : farm_(farm), network_(network), problem_(network.problem), month_(month) {
    reachable_.resize(problem_.nodes.size());
    for (const Edge& edge : problem_.edges) {
      if (!stays_open(edge)) {
        continue;
      }
      reachable_[edge.up].push_back(edge.down);
      if (edge.kind == EdgeKind::Link || edge.kind == EdgeKind::Crest) {
        reachable_[edge.down].push_back(edge.up);
      }
    }
    // A vent's top is the highest its node can stand.
    brim_.resize(problem_.nodes.size());
    for (const Edge& edge : problem_.edges) {
      if (edge.kind == EdgeKind::Discharge && edge.up != nodal::outside && !edge.has_loss) {
        brim_[edge.up] = edge.level_m;
      }
    }
    // Open water stands at its own level: what comes from above spills or spreads there.
    own_.resize(problem_.nodes.size());
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      own_[network_.places[i].node] = own_level_m(farm_.places[i], month_);
    }
  }

  [[nodiscard]] Heads heads() {
    lifted_.assign(farm_.pumps.size() + farm_.rams.size(), std::nullopt);
    // One lifts into the next: so many rounds as there may be one behind another, three at most.
    const std::size_t rounds = std::min<std::size_t>(lifted_.size(), 3);
    for (std::size_t round = 0; round < rounds; ++round) {
      for (std::size_t i = 0; i < lifted_.size(); ++i) {
        lifted_[i].reset();  // nothing lifts its own water once more
        lifted_[i] = lifted_by(i, search());
      }
    }
    return search();
  }

 private:
  struct Lifted {
    std::size_t node = 0;
    double level_m = 0.0;
  };

  [[nodiscard]] Heads search() const {
    Heads head(problem_.nodes.size());
    using Level = std::pair<double, std::size_t>;
    std::priority_queue<Level> open;
    for (const PlaceNode& place : network_.places) {
      if (own_[place.node]) {
        open.emplace(*own_[place.node], place.node);
      }
    }
    for (const std::optional<Lifted>& lifted : lifted_) {
      if (lifted) {
        open.emplace(lifted->level_m, lifted->node);
      }
    }
    while (!open.empty()) {
      double level = open.top().first;
      const std::size_t node = open.top().second;
      open.pop();
      if (head[node] || (own_[node] && *own_[node] != level)) {
        continue;
      }
      if (brim_[node] && *brim_[node] < level) {
        level = *brim_[node];
      }
      head[node] = level;
      for (const std::size_t next : reachable_[node]) {
        if (!head[next]) {
          open.emplace(level, next);
        }
      }
    }
    return head;
  }

  /// How high pump or ram `index` can raise the water beyond it, none where none reaches it.
  [[nodiscard]] std::optional<Lifted> lifted_by(std::size_t index, const Heads& head) const {
    if (index < farm_.pumps.size()) {
      const Edge& edge = problem_.edges[network_.pumps[index].edge];
      if (edge.closed || !head[edge.up]) {
        return std::nullopt;
      }
      const double shut_off_m = network_.pump_curves[index].shut_off_head_m();
      return Lifted{edge.down, *head[edge.up] + std::max(shut_off_m, 0.0)};
    }
    const RamEdges& ram = network_.rams[index - farm_.pumps.size()];
    const Edge& edge = problem_.edges[ram.delivery_edge];
    const Edge& drive = problem_.edges[ram.drive_edge];
    const std::optional<double> supply =
        edge.supply == nodal::outside ? edge.supply_level_m : head[edge.supply];
    if (drive.closed || !supply || *supply <= edge.level_m) {
      return std::nullopt;
    }
    const double stall_m = edge.level_m + hydrology::stall_lift_ratio * (*supply - edge.level_m);
    const std::optional<double> open_m = highest_open_end_m(edge.down);
    return Lifted{edge.down, open_m ? std::min(*open_m, stall_m) : stall_m};
  }

  /// The highest end behind a node that nothing shuts: a rim, a free pipe end, open water, a vent's
  /// top. Water lifted there runs off instead of pressing on.
  [[nodiscard]] std::optional<double> highest_open_end_m(std::size_t from) const {
    std::optional<double> highest;
    const auto see = [&highest](double level) {
      highest = std::max(highest.value_or(level), level);
    };
    std::vector<bool> seen(problem_.nodes.size(), false);
    std::vector<std::size_t> open{from};
    seen[from] = true;
    while (!open.empty()) {
      const std::size_t node = open.back();
      open.pop_back();
      if (own_[node]) {
        see(*own_[node]);
        continue;
      }
      for (const std::size_t next : reachable_[node]) {
        if (!seen[next]) {
          seen[next] = true;
          open.push_back(next);
        }
      }
    }
    std::vector<bool> shuts(problem_.edges.size(), false);
    for (const PlaceNode& place : network_.places) {
      if (place.discharge_edge != no_index) {
        shuts[place.discharge_edge] = true;
      }
    }
    for (std::size_t i = 0; i < problem_.edges.size(); ++i) {
      const Edge& edge = problem_.edges[i];
      if (edge.kind == EdgeKind::Discharge && !edge.closed && !shuts[i] &&
          edge.up != nodal::outside && seen[edge.up]) {
        see(edge.level_m);
      }
    }
    return highest;
  }

  const model::Farm& farm_;
  const FarmNetwork& network_;
  const nodal::Problem& problem_;
  std::optional<model::Month> month_;
  std::vector<std::vector<std::size_t>> reachable_;
  Heads brim_;
  Heads own_;
  std::vector<std::optional<Lifted>> lifted_;  // by pump, then by ram
};

}  // namespace

std::vector<std::optional<double>> static_heads_m(const model::Farm& farm,
                                                  const FarmNetwork& network,
                                                  std::optional<model::Month> month) {
  return StillWater(farm, network, month).heads();
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
