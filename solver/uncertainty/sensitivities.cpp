#include "solver/uncertainty/sensitivities.h"

#include <cmath>
#include <memory>
#include <utility>

#include "solver/nodal/residual.h"

namespace leat::solver {

namespace {

/// Half the distance of the two networks an input's effect is read from: metres of a level, else
/// of the logarithm. At a fixed state the equations are smooth in their numbers, so that what the
/// difference leaves out is of the order of its square.
constexpr double half_step = 1e-5;
constexpr double scale_s_m2 = 1e5;

double head_at(const nodal::State& state, std::size_t node) {
  return node == nodal::outside ? 0.0 : state.head_m[node];
}

/// r of an edge of a changed network at the answer of the unchanged one.
double residual_at(const nodal::Problem& problem, std::size_t index, const nodal::State& state) {
  const nodal::Edge& edge = problem.edges[index];
  const double flow = state.flow_m3_s[index];
  return nodal::exact_residual_m(edge,
                                 flow,
                                 head_at(state, edge.up),
                                 head_at(state, edge.down),
                                 nodal::edge_loss(problem, index, flow),
                                 scale_s_m2);
}

/// Whether two networks have the same nodes and edges, their numbers apart.
bool have_one_shape(const nodal::Problem& a, const nodal::Problem& b) {
  if (a.nodes.size() != b.nodes.size() || a.edges.size() != b.edges.size()) {
    return false;
  }
  for (std::size_t i = 0; i < a.edges.size(); ++i) {
    if (a.edges[i].kind != b.edges[i].kind || a.edges[i].up != b.edges[i].up ||
        a.edges[i].down != b.edges[i].down) {
      return false;
    }
  }
  return true;
}

}  // namespace

FarmSensitivities::FarmSensitivities(const FlowState& state)
    : state_(&state),
      changed_(*state.farm),
      adjoint_(state.network->problem, state.solution.state) {
  for (const FarmInput& input : inputs_of(*state.farm, state.options.month)) {
    effects_.push_back(effect_of(input));
  }
}

FarmSensitivities::Effect FarmSensitivities::effect_of(const FarmInput& input) {
  const model::Farm& base = *state_->farm;
  Effect effect{input, value_of(base, input, state_->options.month), {}, {}};
  const auto network_with = [&](double amount) {
    set_input(changed_, base, input, amount);
    Surroundings around = state_->surroundings;
    around.air_pressure_Pa = surroundings_of(changed_, state_->options.month).air_pressure_Pa;
    return network_of(changed_, around, state_->options);
  };
  // A fully open valve opens no further: then one-sided.
  const bool is_full = input.kind == InputKind::ValveOpening && effect.value >= 1.0;
  const double above = is_full ? 0.0 : half_step;
  const std::unique_ptr<FarmNetwork> more = network_with(above);
  const std::unique_ptr<FarmNetwork> less = network_with(-half_step);
  set_input(changed_, base, input, 0.0);
  const nodal::Problem& a = more->problem;
  const nodal::Problem& b = less->problem;
  const nodal::Problem& now = state_->network->problem;
  if (!have_one_shape(a, now) || !have_one_shape(b, now)) {
    return effect;  // on a kink of the farm's own: a path point just turning into a summit
  }
  const nodal::State& state = state_->solution.state;
  const double step = above + half_step;
  for (std::size_t i = 0; i < now.edges.size(); ++i) {
    const double up = head_at(state, now.edges[i].up);
    const double down = head_at(state, now.edges[i].down);
    if (now.edges[i].closed || std::isnan(up) || std::isnan(down)) {
      continue;
    }
    const double change = (residual_at(a, i, state) - residual_at(b, i, state)) / step;
    if (change != 0.0) {
      effect.residuals.push_back({i, change});
    }
  }
  for (std::size_t i = 0; i < now.nodes.size(); ++i) {
    if (!now.nodes[i].fixed_head_m || !a.nodes[i].fixed_head_m || !b.nodes[i].fixed_head_m) {
      continue;
    }
    const double change = (*a.nodes[i].fixed_head_m - *b.nodes[i].fixed_head_m) / step;
    if (change != 0.0) {
      effect.fixed_heads.push_back({i, change});
    }
  }
  return effect;
}

std::vector<InputSensitivity> FarmSensitivities::of(const nodal::Aim& aim) {
  const nodal::Sensitivity adjoint = adjoint_.of(aim);
  std::vector<InputSensitivity> found;
  if (!adjoint.is_known) {
    return found;
  }
  for (const Effect& effect : effects_) {
    InputSensitivity sensitivity{effect.input, effect.value, 0.0};
    for (const nodal::Aim::Term& term : effect.residuals) {
      sensitivity.by_amount += adjoint.by_residual[term.index] * term.weight;
    }
    for (const nodal::Aim::Term& term : effect.fixed_heads) {
      sensitivity.by_amount += adjoint.by_fixed_head[term.index] * term.weight;
    }
    found.push_back(std::move(sensitivity));
  }
  return found;
}

nodal::Aim delivered_aim(const FlowState& state, std::size_t place) {
  const PlaceNode& node = state.network->places[place];
  if (node.supply_edge != no_index) {
    return {{}, {{node.supply_edge, -1.0}}};
  }
  if (node.discharge_edge != no_index) {
    return nodal::aim_at_flow(node.discharge_edge);
  }
  nodal::Aim aim;
  for (const std::size_t i : state.network->pipes_of.at(place)) {
    const PipeEdges& pipe = state.network->pipes[i];
    if (state.farm->pipes[i].to == place) {
      aim.flows.push_back({pipe.stretch_edge.back(), 1.0});
    }
    if (state.farm->pipes[i].from == place) {
      aim.flows.push_back({pipe.stretch_edge.front(), -1.0});
    }
  }
  return aim;
}

}  // namespace leat::solver
