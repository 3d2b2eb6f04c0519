#include "solver/nodal/workspace.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "solver/nodal/reach.h"

namespace leat::nodal {

namespace {

constexpr double not_a_head = std::numeric_limits<double>::quiet_NaN();

/// A store's water is known to a few units in the last place, however short the step.
constexpr double store_rounding = 8.0 * std::numeric_limits<double>::epsilon();

/// Fixed heads stand in the state as well; what lies outside has none and is not read.
double head_of(const State& state, std::size_t node) {
  return node == outside ? 0.0 : state.head_m[node];
}

}  // namespace

Workspace::Workspace(const Problem& problem) : reached(nodes_reached(problem)) {
  unknown_of.assign(problem.nodes.size(), no_unknown);
  for (std::size_t node = 0; node < problem.nodes.size(); ++node) {
    if (reached[node] && !problem.nodes[node].fixed_head_m) {
      unknown_of[node] = unknowns++;
      if (problem.nodes[node].has_store) {
        stores.push_back(node);
      }
    }
  }
  store_by_head_m2_s.assign(stores.size(), 0.0);
  const auto unknown = [&](std::size_t node) {
    return node == outside ? no_unknown : unknown_of[node];
  };
  for (std::size_t index = 0; index < problem.edges.size(); ++index) {
    const Edge& edge = problem.edges[index];
    const auto is_dry = [&](std::size_t node) { return node != outside && !reached[node]; };
    bool dry = is_dry(edge.up) || is_dry(edge.down);
    if (edge.kind == EdgeKind::Ram) {
      const Edge& driver = problem.edges[edge.driver];
      dry = dry || driver.closed || is_dry(driver.up) || is_dry(edge.supply);
    }
    if (edge.closed || dry) {
      continue;
    }
    active.push_back(index);
    if (edge.kind != EdgeKind::Link && edge.kind != EdgeKind::Ram) {
      limited.push_back(index);
    }
    couplings.push_back({unknown(edge.up), unknown(edge.down)});
    if (makes_unsymmetric(edge)) {
      shape = MatrixShape::Unsymmetric;
    }
  }
  std::vector<Coupling> pairs = couplings;
  find_rams(problem, pairs);
  if (unknowns > 0) {
    linear.emplace(unknowns, pairs, shape);
  }
  state.head_m.assign(problem.nodes.size(), not_a_head);
  state.flow_m3_s.assign(problem.edges.size(), 0.0);
  trial = state;
  losses.resize(problem.edges.size());
  residuals.resize(problem.edges.size());
  flow_step_m3_s.assign(problem.edges.size(), 0.0);
  imbalance_m3_s.assign(unknowns, 0.0);
  right_side.assign(unknowns, 0.0);
}

void Workspace::find_rams(const Problem& problem, std::vector<Coupling>& pairs) {
  for (std::size_t i = 0; i < active.size(); ++i) {
    const Edge& edge = problem.edges[active[i]];
    if (edge.kind != EdgeKind::Ram) {
      continue;
    }
    ActiveRam ram;
    ram.at = i;
    ram.driver_at = static_cast<std::size_t>(std::find(active.begin(), active.end(), edge.driver) -
                                             active.begin());
    ram.by_drive = pairs.size();
    pairs.push_back({couplings[ram.driver_at].up, couplings[i].down});
    ram.by_supply = pairs.size();
    ram.supply = edge.supply == outside ? no_unknown : unknown_of[edge.supply];
    pairs.push_back({ram.supply, couplings[i].down});
    rams.push_back(ram);
  }
}

void Workspace::measure_rams(const Problem& problem,
                             const State& at,
                             double scale,
                             Distance& distance) {
  for (ActiveRam& ram : rams) {
    const std::size_t index = active[ram.at];
    const Edge& edge = problem.edges[index];
    const double supply_m = edge.supply == outside ? edge.supply_level_m : head_of(at, edge.supply);
    ram.residual = ram_residual(problem,
                                index,
                                at.flow_m3_s[index],
                                at.flow_m3_s[edge.driver],
                                head_of(at, edge.down),
                                supply_m,
                                scale);
    residuals[index] = ram.residual.residual;
    const double residual_m = residuals[index].residual_m;
    distance.merit += 0.5 * residual_m * residual_m;
    distance.exact_m = std::max(distance.exact_m, std::abs(residual_m) * judged_scale_s_m2 / scale);
  }
}

void Workspace::find_losses(const Problem& problem, const State& at) {
  for (const std::size_t index : active) {
    losses[index] = edge_loss(problem, index, at.flow_m3_s[index]);
  }
}

double Workspace::exact_residual(const Problem& problem, const State& at) const {
  double largest = 0.0;
  for (const std::size_t index : limited) {
    const Edge& edge = problem.edges[index];
    const double exact = exact_residual_m(edge,
                                          at.flow_m3_s[index],
                                          head_of(at, edge.up),
                                          head_of(at, edge.down),
                                          losses[index],
                                          judged_scale_s_m2);
    largest = std::max(largest, std::abs(exact));
  }
  return largest;
}

Distance Workspace::measure(const Problem& problem, const State& at, const Smoothing& smoothing) {
  Distance distance;
  for (std::size_t node = 0; node < problem.nodes.size(); ++node) {
    if (unknown_of[node] != no_unknown) {
      imbalance_m3_s[unknown_of[node]] = problem.nodes[node].inflow_m3_s;
    }
  }
  double sum = 0.0;
  for (std::size_t i = 0; i < active.size(); ++i) {
    const std::size_t index = active[i];
    const Edge& edge = problem.edges[index];
    const double flow = at.flow_m3_s[index];
    if (edge.kind == EdgeKind::Link) {
      EdgeResidual& residual = residuals[index];
      residual = link_residual(head_of(at, edge.up), head_of(at, edge.down), losses[index]);
      sum += residual.residual_m * residual.residual_m;
      distance.exact_m = std::max(distance.exact_m, std::abs(residual.residual_m));
    }
    distance.largest_flow_m3_s = std::max(distance.largest_flow_m3_s, std::abs(flow));
    if (couplings[i].up != no_unknown) {
      imbalance_m3_s[couplings[i].up] -= flow;
    }
    if (couplings[i].down != no_unknown) {
      imbalance_m3_s[couplings[i].down] += flow;
    }
  }
  for (std::size_t i = 0; i < stores.size(); ++i) {
    const std::size_t node = stores[i];
    const Stored stored = problem.stored(node, at.head_m[node]);
    const double taken_up = stored.volume_m3 - problem.nodes[node].volume_before_m3;
    imbalance_m3_s[unknown_of[node]] -= taken_up / problem.step_s;
    store_by_head_m2_s[i] = stored.area_m2 / problem.step_s;
    const double digits_m3 = std::abs(stored.volume_m3) +
                             std::abs(problem.nodes[node].volume_before_m3) +
                             stored.area_m2 * std::abs(at.head_m[node]);
    distance.store_rounding_m3_s =
        std::max(distance.store_rounding_m3_s, store_rounding * digits_m3 / problem.step_s);
  }
  for (const double imbalance : imbalance_m3_s) {
    const double as_head = smoothing.scale_s_m2 * imbalance;
    sum += as_head * as_head;
    distance.imbalance_m3_s = std::max(distance.imbalance_m3_s, std::abs(imbalance));
  }
  distance.merit = 0.5 * sum;
  measure_rams(problem, at, smoothing.scale_s_m2, distance);
  without_limits = distance;
  return measure_limits(problem, at, smoothing);
}

Distance Workspace::measure_limits(const Problem& problem,
                                   const State& at,
                                   const Smoothing& smoothing) {
  Distance distance = without_limits;
  for (const std::size_t index : limited) {
    const Edge& edge = problem.edges[index];
    EdgeResidual& residual = residuals[index];
    residual = smoothed_residual(edge,
                                 at.flow_m3_s[index],
                                 head_of(at, edge.up),
                                 head_of(at, edge.down),
                                 losses[index],
                                 smoothing);
    distance.merit += 0.5 * residual.residual_m * residual.residual_m;
  }
  return distance;
}

bool Workspace::take_newton_step() {
  if (unknowns > 0) {
    linear->clear(idle_diagonal);
    right_side = imbalance_m3_s;
    for (std::size_t i = 0; i < active.size(); ++i) {
      const EdgeResidual& residual = residuals[active[i]];
      const double gain = -1.0 / residual.by_flow_s_m2;
      linear->add(i, gain * residual.by_head_up, gain * residual.by_head_down);
      if (couplings[i].up != no_unknown) {
        right_side[couplings[i].up] -= gain * residual.residual_m;
      }
      if (couplings[i].down != no_unknown) {
        right_side[couplings[i].down] += gain * residual.residual_m;
      }
    }
    for (std::size_t i = 0; i < stores.size(); ++i) {
      linear->add_to_diagonal(unknown_of[stores[i]], store_by_head_m2_s[i]);
    }
    // A ram's flow follows its driver's, whose own step is put in here as well.
    for (const ActiveRam& ram : rams) {
      const EdgeResidual& driver = residuals[active[ram.driver_at]];
      const double gain = -1.0 / ram.residual.residual.by_flow_s_m2;
      const double by_drive = gain * ram.residual.by_driving_flow_s_m2 / -driver.by_flow_s_m2;
      linear->add_inflow(ram.by_drive, by_drive * driver.by_head_up);
      linear->add_inflow(ram.by_supply, gain * ram.residual.by_supply_head);
      if (couplings[ram.at].down != no_unknown) {
        right_side[couplings[ram.at].down] += by_drive * driver.residual_m;
      }
    }
    if (!linear->factorise()) {
      return false;
    }
    linear->solve(right_side);
  }
  const auto head_step = [&](std::size_t unknown) {
    return unknown == no_unknown ? 0.0 : right_side[unknown];
  };
  for (std::size_t i = 0; i < active.size(); ++i) {
    const EdgeResidual& residual = residuals[active[i]];
    const double change = residual.residual_m + residual.by_head_up * head_step(couplings[i].up) +
                          residual.by_head_down * head_step(couplings[i].down);
    flow_step_m3_s[active[i]] = -change / residual.by_flow_s_m2;
  }
  for (const ActiveRam& ram : rams) {
    const double more = ram.residual.by_driving_flow_s_m2 * flow_step_m3_s[active[ram.driver_at]] +
                        ram.residual.by_supply_head * head_step(ram.supply);
    flow_step_m3_s[active[ram.at]] -= more / ram.residual.residual.by_flow_s_m2;
  }
  return true;
}

void Workspace::move(double share) {
  for (std::size_t node = 0; node < unknown_of.size(); ++node) {
    if (unknown_of[node] != no_unknown) {
      trial.head_m[node] = state.head_m[node] + share * right_side[unknown_of[node]];
    }
  }
  for (const std::size_t index : active) {
    trial.flow_m3_s[index] = state.flow_m3_s[index] + share * flow_step_m3_s[index];
  }
}

double Workspace::highest_supply(const Problem& problem) {
  double highest = -std::numeric_limits<double>::infinity();
  const auto see = [&](double level) { highest = std::max(highest, level); };
  for (const Node& node : problem.nodes) {
    if (node.fixed_head_m) {
      see(*node.fixed_head_m);
    }
  }
  for (const Edge& edge : problem.edges) {
    if (edge.kind == EdgeKind::LimitedSupply) {
      see(edge.level_m);
    }
  }
  return std::isfinite(highest) ? highest : 0.0;
}

void Workspace::cold_start(const Problem& problem, double flow_factor) {
  const double highest = highest_supply(problem);
  largest_head_m = std::abs(highest);
  for (std::size_t node = 0; node < unknown_of.size(); ++node) {
    const std::optional<double>& fixed = problem.nodes[node].fixed_head_m;
    state.head_m[node] = fixed ? *fixed : unknown_of[node] == no_unknown ? not_a_head : highest;
  }
  trial.head_m = state.head_m;
  std::fill(state.flow_m3_s.begin(), state.flow_m3_s.end(), 0.0);
  for (const std::size_t index : active) {
    state.flow_m3_s[index] = flow_factor * problem.edges[index].start_flow_m3_s;
  }
}

void Workspace::warm_start(const Problem& problem, const State& warm) {
  cold_start(problem, 0.0);
  for (std::size_t node = 0; node < unknown_of.size(); ++node) {
    if (unknown_of[node] != no_unknown && std::isfinite(warm.head_m[node])) {
      state.head_m[node] = warm.head_m[node];
    }
  }
  // An edge that has been closed since carries nothing now.
  for (const std::size_t index : active) {
    state.flow_m3_s[index] = warm.flow_m3_s[index];
  }
}

}  // namespace leat::nodal
