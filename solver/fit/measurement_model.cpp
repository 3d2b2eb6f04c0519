#include "solver/fit/measurement_model.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/flow/place_answers.h"
#include "solver/nodal/pattern.h"

namespace leat::solver {

namespace {

/// Below this flow a pocket's hold on the water fades, so that the law has a slope at rest.
constexpr double pocket_fades_m3_s = 1e-6;
/// How softly limits are taken where full steps do not arrive: a cause may be large.
constexpr double large_change_smoothing_m = 1e-2;
constexpr double leak_discharge_coefficient = 0.61;

/// The stretch that starts at a high point.
std::size_t edge_behind(const PipeEdges& pipe, double at_m) {
  for (std::size_t i = 0; i < pipe.cut.stretches.size(); ++i) {
    if (pipe.cut.stretches[i].start.at_m >= at_m - 1e-6) {
      return pipe.stretch_edge[i];
    }
  }
  return pipe.stretch_edge.back();
}

/// Adds the head a pocket holds back to a stretch's own loss.
void trap_air(const FarmNetwork& network,
              const FitSite& site,
              double height_m,
              nodal::Problem& problem) {
  const std::size_t held = edge_behind(network.pipes[site.index], site.at_m);
  const auto own = problem.loss;
  problem.loss = [own, held, height_m](std::size_t edge, double flow_m3_s) {
    nodal::Loss loss = own(edge, flow_m3_s);
    if (edge == held) {
      const double root = std::hypot(flow_m3_s, pocket_fades_m3_s);
      loss.loss_m += height_m * flow_m3_s / root;
      loss.slope_s_m2 += height_m * pocket_fades_m3_s * pocket_fades_m3_s / (root * root * root);
    }
    return loss;
  };
}

/// Adds a hole at a tee, open to the air at the tee's level.
void spring_a_leak(const FarmNetwork& network,
                   std::size_t place,
                   double elevation_m,
                   double bore_m,
                   nodal::Problem& problem) {
  nodal::Edge edge;
  edge.kind = nodal::EdgeKind::Discharge;
  edge.up = network.places[place].node;
  edge.level_m = elevation_m;
  edge.has_loss = true;
  problem.edges.push_back(edge);
  const std::size_t hole = problem.edges.size() - 1;
  const hydraulics::OrificeLaw law = hydraulics::orifice(bore_m, leak_discharge_coefficient);
  const auto own = problem.loss;
  problem.loss = [own, hole, law](std::size_t index, double flow_m3_s) {
    if (index != hole) {
      return own(index, flow_m3_s);
    }
    const hydraulics::LossAndSlope loss = hydraulics::orifice_loss(law, flow_m3_s);
    return nodal::Loss{loss.loss_m + hydraulics::least_slope_s_m2 * flow_m3_s,
                       loss.slope_s_m2 + hydraulics::least_slope_s_m2};
  };
}

}  // namespace

ReadingModel::ReadingModel(const model::Farm& farm,
                           std::vector<ReadingSpot> spots,
                           LoadCase load_case)
    : farm_(farm), changed_(farm), spots_(std::move(spots)) {
  for (const ReadingSpot& spot : spots_) {
    const auto same = std::find_if(settings_.begin(), settings_.end(), [&](const Setting& one) {
      return one.month == spot.month;
    });
    setting_of_.push_back(static_cast<std::size_t>(same - settings_.begin()));
    if (same != settings_.end()) {
      continue;
    }
    Setting setting;
    setting.month = spot.month;
    setting.surroundings = surroundings_of(farm, spot.month);
    NetworkOptions options;
    options.load_case = load_case;
    options.month = spot.month;
    setting.base = solve_running_case(farm, setting.surroundings, options);
    settings_.push_back(std::move(setting));
  }
  if (!is_solved()) {
    return;
  }
  for (Setting& setting : settings_) {
    setting.solver = std::make_unique<nodal::NodalSolver>(setting.base.state.network->problem);
  }
  for (std::size_t i = 0; i < spots_.size(); ++i) {
    const Setting& setting = settings_[setting_of_[i]];
    as_filed_.push_back(read(spots_[i], setting.base.state, farm_));
  }
}

bool ReadingModel::is_solved() const {
  return std::all_of(settings_.begin(), settings_.end(), [](const Setting& setting) {
    return setting.base.state.solution.report.is_usable();
  });
}

bool ReadingModel::solve(Setting& setting, const FitSite& site, double size, FlowState& state) {
  const FarmNetwork& network = *state.network;
  const FlowState& base = setting.base.state;
  nodal::Problem problem = network.problem;
  const bool goes_on = setting.last_site && setting.last_site->kind == site.kind &&
                       setting.last_site->index == site.index &&
                       setting.last_site->at_m == site.at_m;
  nodal::State warm = goes_on ? setting.last : base.solution.state;
  if (site.kind == CauseKind::TrappedAir) {
    trap_air(network, site, size, problem);
  }
  if (site.kind == CauseKind::LeakAtTee) {
    const double elevation_m = elevation_of(farm_.places[site.index], setting.month);
    spring_a_leak(network, site.index, elevation_m, size, problem);
    warm.flow_m3_s.resize(problem.edges.size(), 0.0);
  }
  // A level that rises past a pipe's end may change which nodes there are.
  const bool can_start_warm =
      warm.head_m.size() == problem.nodes.size() && warm.flow_m3_s.size() == problem.edges.size();
  const nodal::State* const start = can_start_warm ? &warm : nullptr;
  nodal::SolveOptions options;
  options.warm_smoothing_m = large_change_smoothing_m;
  nodal::Solution solution = nodal::have_one_pattern(problem, base.network->problem)
                                 ? setting.solver->solve(problem, options, start)
                                 : nodal::NodalSolver(problem).solve(problem, options, start);
  if (!solution.report.is_usable()) {
    solution = nodal::solve(problem);
  }
  if (!solution.report.is_usable()) {
    setting.last_site.reset();
    return false;
  }
  setting.last_site = site;
  setting.last = solution.state;
  if (site.kind == CauseKind::LeakAtTee && &setting == &settings_.front()) {
    last_leak_m3_s_ = std::max(0.0, solution.state.flow_m3_s.back());
  }
  // The hole's edge is the last one and no part of the farm's own network.
  solution.state.flow_m3_s.resize(network.problem.edges.size());
  state.solution = std::move(solution);
  state.head_known = known_heads(state);
  return true;
}

std::optional<std::vector<double>> ReadingModel::with(const FitSite& site, double size) {
  std::vector<double> readings(spots_.size());
  put_in(site, size, changed_);
  bool sound = true;
  for (std::size_t k = 0; k < settings_.size() && sound; ++k) {
    Setting& setting = settings_[k];
    FlowState state;
    state.farm = &changed_;
    state.surroundings = site.kind == CauseKind::WaterColder
                             ? surroundings_of(changed_, setting.month)
                             : setting.surroundings;
    state.options = setting.base.state.options;
    state.network = network_of(changed_, state.surroundings, state.options);
    sound = solve(setting, site, size, state);
    for (std::size_t i = 0; i < spots_.size() && sound; ++i) {
      if (setting_of_[i] == k) {
        readings[i] = read(spots_[i], state, changed_);
      }
    }
  }
  take_out(site, farm_, changed_);
  return sound ? std::optional(std::move(readings)) : std::nullopt;
}

double ReadingModel::read(const ReadingSpot& spot,
                          const FlowState& state,
                          const model::Farm& farm) const {
  const model::Place& place = farm.places[spot.place];
  const std::optional<model::Month> month = state.options.month;
  const PlaceNode& node = state.network->places[spot.place];
  const double elevation_m = elevation_of(place, month);
  const std::optional<double> head_m = state.head_m(node.node);
  switch (spot.kind) {
    case model::Measurement::Kind::Pressure:
      // Where no water stands there is air: the gauge shows nothing.
      return head_m ? state.surroundings.pressure_of_head_Pa(*head_m - elevation_m) : 0.0;
    case model::Measurement::Kind::Level:
      return surface_m(place, month)
          .value_or(model::is_open_water(place) ? head_m.value_or(elevation_m) : elevation_m);
    case model::Measurement::Kind::Flow:
      break;
  }
  if (spot.pipe) {
    return state.pipe_flow_m3_s(*spot.pipe);
  }
  if (const auto* const yield = model::yield_of(place)) {
    return in_cubic_metres_per_second(yield->at(month));
  }
  if (node.discharge_edge != no_index) {
    return std::max(0.0, state.flow_m3_s(node.discharge_edge));
  }
  double inflow_m3_s = 0.0;
  for (const std::size_t pipe : state.network->pipes_of.at(spot.place)) {
    const PipeEdges& edges = state.network->pipes[pipe];
    inflow_m3_s += farm.pipes[pipe].to == spot.place ? state.flow_m3_s(edges.stretch_edge.back())
                                                     : -state.pipe_flow_m3_s(pipe);
  }
  return inflow_m3_s;
}

}  // namespace leat::solver
