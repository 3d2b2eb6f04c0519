#include "solver/size/head_budget.h"

#include <algorithm>
#include <memory>
#include <utility>

#include "solver/findings/states.h"
#include "solver/flow/place_answers.h"
#include "solver/size/day_below.h"

namespace leat::solver {

namespace {

/// A recursion as deep as the tree, and as much memory as its square.
constexpr std::size_t most_pipes = 2000;

bool is_shut(const model::Pipe& pipe) {
  return pipe.valve && pipe.valve->shut;
}

/// Walks down from every source, adding up what is needed below.
class TreeWalk {
 public:
  TreeWalk(const model::Farm& farm, std::optional<model::Month> month)
      : farm_(farm), month_(month), leaving_(farm.places.size()), entering_(farm.places.size()) {
    for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
      if (!is_shut(farm.pipes[i])) {
        leaving_[farm.pipes[i].from].push_back(i);
        ++entering_[farm.pipes[i].to];
      }
    }
    tree_.flow_m3_s.assign(farm.pipes.size(), 0.0);
    tree_.up.resize(farm.pipes.size());
  }

  WaterTree walk() {
    if (farm_.pipes.size() > most_pipes || !is_forest()) {
      return std::move(tree_);
    }
    tree_.known = FlowsKnown::All;
    std::size_t reached = 0;
    for (std::size_t place = 0; place < farm_.places.size(); ++place) {
      if (!model::is_open_water(farm_.places[place])) {
        continue;
      }
      for (const std::size_t pipe : leaving_[place]) {
        ends_seen_ = 0;
        open_ends_ = 0;
        wished_outlets_ = 0;
        reached += walk_down(pipe, {});
        // An outlet takes what it can get: only alone on its line is its flow no matter.
        const bool alone = ends_seen_ == 1 && wished_outlets_ == 1;
        if (open_ends_ > 0 || (wished_outlets_ > 0 && !alone)) {
          tree_.known = FlowsKnown::Least;
        }
        // Several lines out of one spring share its yield; each is a tree of its own.
      }
    }
    const auto live = static_cast<std::size_t>(std::count_if(
        farm_.pipes.begin(), farm_.pipes.end(), [](const auto& pipe) { return !is_shut(pipe); }));
    if (reached != live) {
      tree_.known = FlowsKnown::None;
    }
    return std::move(tree_);
  }

 private:
  /// Every tee fed by one pipe, every source's head known, nothing on the way that resets a head.
  [[nodiscard]] bool is_forest() const {
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      const model::Place& place = farm_.places[i];
      if (model::is_tee(place) && entering_[i] != 1) {
        return false;
      }
      if (model::is_open_water(place) && !leaving_[i].empty() && !surface_m(place, month_)) {
        return false;
      }
    }
    return std::none_of(farm_.pipes.begin(), farm_.pipes.end(), [](const model::Pipe& pipe) {
      return pipe.regulator || !pipe.vents.empty();
    });
  }

  std::size_t walk_down(std::size_t pipe, std::vector<std::size_t> way) {
    way.push_back(pipe);
    tree_.up[pipe] = way;
    const std::size_t to = farm_.pipes[pipe].to;
    const model::Place& place = farm_.places[to];
    std::size_t reached = 1;
    if (!model::is_tee(place)) {
      add_end(pipe, place);
      return reached;
    }
    for (const std::size_t next : leaving_[to]) {
      if (tree_.up[next].empty()) {
        reached += walk_down(next, way);
        tree_.flow_m3_s[pipe] += tree_.flow_m3_s[next];
      }
    }
    return reached;
  }

  void add_end(std::size_t pipe, const model::Place& place) {
    ++ends_seen_;
    const std::optional<double> need = wanted_at(farm_, farm_.pipes[pipe].to, month_);
    if (!need) {
      ++open_ends_;
      return;
    }
    wished_outlets_ += model::is_trough(place) ? 0 : 1;
    tree_.flow_m3_s[pipe] = *need;
    if (*need > 0.0) {
      tree_.ends.push_back(pipe);
    }
  }

  const model::Farm& farm_;
  std::optional<model::Month> month_;
  std::vector<std::vector<std::size_t>> leaving_;
  std::vector<int> entering_;
  WaterTree tree_;
  int ends_seen_ = 0;
  int open_ends_ = 0;
  int wished_outlets_ = 0;
};

/// What one edge of the network costs at a flow.
double loss_at(const FarmNetwork& network, std::size_t edge, double flow_m3_s) {
  return network.problem.loss(edge, flow_m3_s).loss_m + network.problem.edges[edge].opening_head_m;
}

PipeSpending spending_of_pipe(const FarmNetwork& network,
                              const model::Farm& farm,
                              std::size_t pipe,
                              double flow_m3_s) {
  PipeSpending spent;
  if (flow_m3_s <= 0.0) {
    return spent;
  }
  const PipeEdges& edges = network.pipes[pipe];
  const double bore_m = in_metres(farm.pipes[pipe].size.bore);
  for (std::size_t i = 0; i < edges.stretch_edge.size(); ++i) {
    spent.loss_m += loss_at(network, edges.stretch_edge[i], flow_m3_s);
    if (i < edges.cut.breaks.size() && edges.cut.breaks[i].is_summit) {
      spent.loss_to_summit_m.push_back(spent.loss_m +
                                       hydraulics::velocity_head_m(bore_m, flow_m3_s));
    }
  }
  const std::size_t at_place = network.places[farm.pipes[pipe].to].discharge_edge;
  const std::size_t end = at_place != no_index ? at_place : edges.to_end_edge;
  if (end != no_index && network.problem.edges[end].has_loss) {
    const nodal::Edge& edge = network.problem.edges[end];
    spent.loss_m += network.problem.loss(end, flow_m3_s).loss_m + edge.linear_loss_s_m2 * flow_m3_s;
    spent.end_level_m = edge.level_m;
  }
  return spent;
}

/// Builds one limit: the losses of fixed pipes off what is available, those of runs by option.
class LimitMaker {
 public:
  LimitMaker(const std::vector<std::vector<PipeSpending>>& spending,
             const std::vector<std::size_t>& runs,
             const std::vector<std::size_t>& options)
      : spending_(spending), runs_(runs), options_(options) {}

  template <class LossOf>
  void spend(std::size_t pipe, const LossOf& loss_of, HeadLimit& limit) const {
    const auto run = std::find(runs_.begin(), runs_.end(), pipe);
    if (run == runs_.end()) {
      limit.available_m -= loss_of(spending_.front()[pipe]);
      return;
    }
    HeadLimit::Spent spent;
    spent.run = static_cast<std::size_t>(run - runs_.begin());
    for (std::size_t k = 0; k < options_[spent.run]; ++k) {
      spent.loss_m.push_back(loss_of(spending_[k][pipe]));
    }
    limit.spent.push_back(std::move(spent));
  }

  /// A limit with everything upstream of a pipe already spent.
  HeadLimit start(const WaterTree& tree, std::size_t pipe, double available_m) const {
    HeadLimit limit;
    limit.available_m = available_m;
    for (const std::size_t above : tree.up[pipe]) {
      if (above != pipe) {
        spend(
            above, [](const PipeSpending& of) { return of.loss_m; }, limit);
      }
    }
    return limit;
  }

 private:
  const std::vector<std::vector<PipeSpending>>& spending_;
  const std::vector<std::size_t>& runs_;
  const std::vector<std::size_t>& options_;
};

}  // namespace

std::optional<double> wanted_at(const model::Farm& farm,
                                std::size_t place,
                                std::optional<model::Month> month) {
  if (model::is_tank(farm.places[place])) {
    const double day_m3 = day_below_m3(farm, place, month);
    return day_m3 > 0.0 ? std::optional(day_m3 / 86400.0) : std::nullopt;
  }
  return need_of(farm, farm.places[place], month);
}

WaterTree water_tree(const model::Farm& farm, std::optional<model::Month> month) {
  return TreeWalk(farm, month).walk();
}

std::vector<PipeSpending> spending_of(const model::Farm& farm,
                                      const WaterTree& tree,
                                      const Surroundings& surroundings,
                                      std::optional<model::Month> month) {
  NetworkOptions options;
  options.month = month;
  const std::unique_ptr<FarmNetwork> network = network_of(farm, surroundings, options);
  std::vector<PipeSpending> spending;
  for (std::size_t pipe = 0; pipe < farm.pipes.size(); ++pipe) {
    spending.push_back(spending_of_pipe(*network, farm, pipe, tree.flow_m3_s[pipe]));
  }
  return spending;
}

HeadBudget head_budget(const model::Farm& farm,
                       const WaterTree& tree,
                       const std::vector<std::vector<PipeSpending>>& spending,
                       const std::vector<std::size_t>& runs,
                       const std::vector<std::size_t>& options,
                       const Surroundings& surroundings,
                       std::optional<model::Month> month) {
  const LimitMaker maker(spending, runs, options);
  HeadBudget budget;
  const auto source_m = [&](std::size_t pipe) {
    return *surface_m(farm.places[farm.pipes[tree.up[pipe].front()].from], month);
  };
  for (const std::size_t pipe : tree.ends) {
    // A pipe that ends under water stands under the surface's head, else under its own level's.
    const double level_m = spending.front()[pipe].end_level_m.value_or(
        surface_m(farm.places[farm.pipes[pipe].to], month).value_or(source_m(pipe)));
    HeadLimit limit = maker.start(tree, pipe, source_m(pipe) - level_m);
    maker.spend(
        pipe, [](const PipeSpending& of) { return of.loss_m; }, limit);
    budget.limits.push_back(std::move(limit));
    budget.origins.push_back({pipe, false});
  }
  const double margin_m =
      near_vapour_margin_m - surroundings.head_of_pressure_m(surroundings.air_pressure_Pa -
                                                             surroundings.water.vapour_pressure_Pa);
  for (std::size_t pipe = 0; pipe < farm.pipes.size(); ++pipe) {
    if (tree.up[pipe].empty() || tree.flow_m3_s[pipe] <= 0.0) {
      continue;
    }
    const PipeCourse course = course_of(farm, farm.pipes[pipe], month);
    const std::vector<std::size_t> summits = course.summits();
    for (std::size_t i = 0; i < summits.size(); ++i) {
      const double top_m = course.points[summits[i]].elevation_m;
      HeadLimit limit = maker.start(tree, pipe, source_m(pipe) - top_m - margin_m);
      maker.spend(
          pipe, [i](const PipeSpending& of) { return of.loss_to_summit_m[i]; }, limit);
      budget.limits.push_back(std::move(limit));
      budget.origins.push_back({pipe, true});
    }
  }
  return budget;
}

}  // namespace leat::solver
