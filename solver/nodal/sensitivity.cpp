#include "solver/nodal/sensitivity.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "solver/nodal/linear_step.h"
#include "solver/nodal/reach.h"
#include "solver/nodal/residual.h"

namespace leat::nodal {

namespace {

/// S of the pieces that hold a flow at nothing or at its limit; the answer does not hang on it.
constexpr double scale_s_m2 = 1e5;

double head_at(const State& state, std::size_t node) {
  return node == outside ? 0.0 : state.head_m[node];
}

/// A residual with its derivative by the number asked for.
struct Piece {
  double residual_m = 0.0;
  double by_number = 0.0;
};

Piece lower(const Piece& a, const Piece& b) {
  return a.residual_m < b.residual_m ? a : b;
}

Piece higher(const Piece& a, const Piece& b) {
  return a.residual_m > b.residual_m ? a : b;
}

double if_asked(EdgeNumber number, EdgeNumber asked, double derivative) {
  return number == asked ? derivative : 0.0;
}

Piece crest_piece(const Edge& edge, EdgeNumber number, double flow, double up, double down) {
  const double e = edge.linear_loss_s_m2;
  const double f = edge.floor_loss_s_m2;
  const double k = edge.velocity_head_s2_m5;
  const double forward = std::max(flow, 0.0) * std::max(flow, 0.0);
  const double backward = std::max(-flow, 0.0) * std::max(-flow, 0.0);
  const Piece through{up - down - e * flow, if_asked(number, EdgeNumber::LinearLoss, -flow)};
  const Piece up_alone{up - edge.level_m - k * forward - f * flow,
                       if_asked(number, EdgeNumber::Level, -1.0) +
                           if_asked(number, EdgeNumber::VelocityHead, -forward) +
                           if_asked(number, EdgeNumber::FloorLoss, -flow)};
  const Piece down_alone{edge.level_m + k * backward - down - f * flow,
                         if_asked(number, EdgeNumber::Level, 1.0) +
                             if_asked(number, EdgeNumber::VelocityHead, backward) +
                             if_asked(number, EdgeNumber::FloorLoss, -flow)};
  const Piece still{-scale_s_m2 * flow, 0.0};
  return higher(lower(up_alone, through), lower(still, higher(down_alone, through)));
}

}  // namespace

Aim aim_at_head(std::size_t node) {
  return {{{node, 1.0}}, {}};
}

Aim aim_at_flow(std::size_t edge) {
  return {{}, {{edge, 1.0}}};
}

double residual_by(const Edge& edge,
                   EdgeNumber number,
                   double flow_m3_s,
                   double head_up_m,
                   double head_down_m,
                   const Loss& loss,
                   double scale) {
  if (edge.closed) {
    return 0.0;
  }
  const double flow = flow_m3_s;
  // An edge without a law of its own has the linear one.
  const double by_loss = if_asked(number, EdgeNumber::Loss, -1.0) +
                         (edge.has_loss ? 0.0 : if_asked(number, EdgeNumber::LinearLoss, -flow));
  const double by_join = if_asked(number, EdgeNumber::LinearLoss, -flow);
  const double by_level = if_asked(number, EdgeNumber::Level, 1.0);
  const Piece still{-scale * flow, 0.0};
  const Piece at_limit{scale * (edge.limit_m3_s - flow),
                       if_asked(number, EdgeNumber::Limit, scale)};
  const Piece leaves{head_up_m - edge.level_m - loss.loss_m, by_loss - by_level};
  switch (edge.kind) {
    case EdgeKind::Link:
      return by_loss;
    case EdgeKind::Pump:
      return higher(still, {head_up_m - head_down_m - loss.loss_m, by_loss}).by_number;
    case EdgeKind::Ram:
      return 0.0;  // its share is no number of its own
    case EdgeKind::OneWay: {
      const Piece runs{head_up_m - head_down_m - edge.opening_head_m - loss.loss_m,
                       by_loss + if_asked(number, EdgeNumber::OpeningHead, -1.0)};
      return higher(still, runs).by_number;
    }
    case EdgeKind::Discharge:
      return higher(still, leaves).by_number;
    case EdgeKind::CappedDischarge:
      return higher(still, lower(at_limit, leaves)).by_number;
    case EdgeKind::LimitedSupply:
      return lower(at_limit, {edge.level_m - head_down_m - loss.loss_m, by_loss + by_level})
          .by_number;
    case EdgeKind::Crest:
      return crest_piece(edge, number, flow, head_up_m, head_down_m).by_number;
    case EdgeKind::HeldInlet: {
      const Piece shutting{edge.shut_level_m - head_down_m - edge.linear_loss_s_m2 * flow,
                           if_asked(number, EdgeNumber::ShutLevel, 1.0) + by_join};
      return higher(still, lower(leaves, shutting)).by_number;
    }
    case EdgeKind::HeadHold: {
      const double e = edge.linear_loss_s_m2;
      const Piece holding{edge.level_m - head_down_m - e * flow, by_level + by_join};
      const Piece through{head_up_m - head_down_m - e * flow, by_join};
      return higher(still, lower(holding, through)).by_number;
    }
  }
  return 0.0;
}

struct Sensitivities::Workspace {
  const Problem* problem = nullptr;
  const State* state = nullptr;
  std::vector<std::size_t> unknown_of;  // node -> unknown, or no_unknown
  std::vector<std::size_t> active;      // edges whose flow was sought
  std::vector<Coupling> couplings;      // of those
  std::vector<EdgeResidual> residuals;  // of those
  std::optional<LinearStep> linear;
  std::vector<double> right_side;
  bool is_factorised = true;

  [[nodiscard]] std::size_t unknown(std::size_t node) const {
    return node == outside ? no_unknown : unknown_of[node];
  }
  void number_unknowns();
  void find_active_edges();
  void fill_matrix();
};

void Sensitivities::Workspace::number_unknowns() {
  const std::vector<bool> reached = nodes_reached(*problem);
  unknown_of.assign(problem->nodes.size(), no_unknown);
  std::size_t unknowns = 0;
  for (std::size_t node = 0; node < problem->nodes.size(); ++node) {
    if (reached[node] && !problem->nodes[node].fixed_head_m) {
      unknown_of[node] = unknowns++;
    }
  }
  right_side.assign(unknowns, 0.0);
}

void Sensitivities::Workspace::find_active_edges() {
  for (std::size_t index = 0; index < problem->edges.size(); ++index) {
    const Edge& edge = problem->edges[index];
    const double up = head_at(*state, edge.up);
    const double down = head_at(*state, edge.down);
    if (edge.closed || std::isnan(up) || std::isnan(down)) {
      continue;  // beyond the reach of any supply
    }
    const double flow = state->flow_m3_s[index];
    active.push_back(index);
    couplings.push_back({unknown(edge.up), unknown(edge.down)});
    residuals.push_back(smoothed_residual(
        edge, flow, up, down, edge_loss(*problem, index, flow), {scale_s_m2, 0.0}));
  }
}

void Sensitivities::Workspace::fill_matrix() {
  if (right_side.empty()) {
    return;
  }
  MatrixShape shape = MatrixShape::Symmetric;
  for (const std::size_t index : active) {
    if (makes_unsymmetric(problem->edges[index])) {
      shape = MatrixShape::Unsymmetric;
    }
    if (problem->edges[index].kind == EdgeKind::Ram) {
      is_factorised = false;  // its flow hangs on its drive's, which this matrix does not hold
      return;
    }
  }
  linear.emplace(right_side.size(), couplings, shape);
  linear->clear(idle_diagonal);
  for (std::size_t i = 0; i < active.size(); ++i) {
    const double gain = -1.0 / residuals[i].by_flow_s_m2;
    linear->add(i, gain * residuals[i].by_head_up, gain * residuals[i].by_head_down);
  }
  for (std::size_t node = 0; node < unknown_of.size(); ++node) {
    if (unknown_of[node] != no_unknown && problem->nodes[node].has_store) {
      const Stored stored = problem->stored(node, state->head_m[node]);
      linear->add_to_diagonal(unknown_of[node], stored.area_m2 / problem->step_s);
    }
  }
  is_factorised = linear->factorise();
}

Sensitivities::Sensitivities(const Problem& problem, const State& solved)
    : workspace_(std::make_unique<Workspace>()) {
  Workspace& work = *workspace_;
  work.problem = &problem;
  work.state = &solved;
  work.number_unknowns();
  work.find_active_edges();
  work.fill_matrix();
}

Sensitivities::~Sensitivities() = default;
Sensitivities::Sensitivities(Sensitivities&&) noexcept = default;
Sensitivities& Sensitivities::operator=(Sensitivities&&) noexcept = default;

Sensitivity Sensitivities::of(const Aim& aim) {
  Workspace& work = *workspace_;
  const Problem& problem = *work.problem;
  Sensitivity found;
  found.is_known = work.is_factorised;
  found.by_residual.assign(problem.edges.size(), 0.0);
  found.by_inflow.assign(problem.nodes.size(), 0.0);
  found.by_fixed_head.assign(problem.nodes.size(), 0.0);
  if (!found.is_known) {
    return found;
  }
  std::vector<double> flow_weight(problem.edges.size(), 0.0);
  for (const Aim::Term& term : aim.flows) {
    flow_weight[term.index] += term.weight;
  }
  // An edge's flow follows its heads and what is added to its residual:
  // dq = gain (rho + by_head_up dHu + by_head_down dHd).
  std::fill(work.right_side.begin(), work.right_side.end(), 0.0);
  for (const Aim::Term& term : aim.heads) {
    if (std::isnan(work.state->head_m[term.index])) {
      found.is_known = false;
    } else if (work.unknown_of[term.index] != no_unknown) {
      work.right_side[work.unknown_of[term.index]] += term.weight;
    } else {
      found.by_fixed_head[term.index] += term.weight;
    }
  }
  for (std::size_t i = 0; i < work.active.size(); ++i) {
    const double weight = flow_weight[work.active[i]];
    if (weight == 0.0) {
      continue;
    }
    const double gain = -1.0 / work.residuals[i].by_flow_s_m2;
    if (work.couplings[i].up != no_unknown) {
      work.right_side[work.couplings[i].up] += weight * gain * work.residuals[i].by_head_up;
    }
    if (work.couplings[i].down != no_unknown) {
      work.right_side[work.couplings[i].down] += weight * gain * work.residuals[i].by_head_down;
    }
  }
  if (work.linear) {
    work.linear->solve_transposed(work.right_side);
  }
  const auto worth = [&](std::size_t unknown) {
    return unknown == no_unknown ? 0.0 : work.right_side[unknown];
  };
  for (std::size_t node = 0; node < problem.nodes.size(); ++node) {
    found.by_inflow[node] = worth(work.unknown_of[node]);
  }
  const auto is_given = [&](std::size_t node) {
    return node != outside && problem.nodes[node].fixed_head_m.has_value();
  };
  for (std::size_t i = 0; i < work.active.size(); ++i) {
    const std::size_t index = work.active[i];
    const Edge& edge = problem.edges[index];
    const EdgeResidual& residual = work.residuals[i];
    const double gain = -1.0 / residual.by_flow_s_m2;
    const double value =
        gain * (flow_weight[index] + worth(work.couplings[i].down) - worth(work.couplings[i].up));
    found.by_residual[index] = value;
    if (is_given(edge.up)) {
      found.by_fixed_head[edge.up] += value * residual.by_head_up;
    }
    if (is_given(edge.down)) {
      found.by_fixed_head[edge.down] += value * residual.by_head_down;
    }
  }
  return found;
}

}  // namespace leat::nodal
