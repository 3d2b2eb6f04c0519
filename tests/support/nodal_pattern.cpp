#include "tests/support/nodal_pattern.h"

#include <algorithm>
#include <limits>

#include "solver/nodal/newton.h"
#include "solver/nodal/reach.h"
#include "solver/nodal/residual.h"

namespace leat::tests {

using nodal::Edge;
using nodal::EdgeKind;
using nodal::no_unknown;
using nodal::outside;
using nodal::Problem;
using nodal::State;

namespace {

/// Section 5 of the design: an edge is unsymmetric where its flow enters a node on whose head it
/// does not equally depend. Written out anew, so that the solver's own list is held against it.
bool is_unsymmetric(const Edge& edge) {
  const bool into_store = edge.kind == EdgeKind::Discharge || edge.kind == EdgeKind::CappedDischarge
                              ? edge.down != outside
                              : false;
  return into_store || edge.kind == EdgeKind::Crest || edge.kind == EdgeKind::HeldInlet ||
         edge.kind == EdgeKind::HeadHold;
}

}  // namespace

NodalPattern pattern_of(const Problem& problem) {
  NodalPattern pattern;
  const std::vector<bool> reached = nodal::nodes_reached(problem);
  pattern.unknown_of.assign(problem.nodes.size(), no_unknown);
  for (std::size_t node = 0; node < problem.nodes.size(); ++node) {
    if (reached[node] && !problem.nodes[node].fixed_head_m) {
      pattern.unknown_of[node] = pattern.heads++;
    }
  }
  const auto is_dry = [&](std::size_t node) { return node != outside && !reached[node]; };
  const auto unknown = [&](std::size_t node) {
    return node == outside ? no_unknown : pattern.unknown_of[node];
  };
  for (std::size_t index = 0; index < problem.edges.size(); ++index) {
    const Edge& edge = problem.edges[index];
    if (edge.closed || is_dry(edge.up) || is_dry(edge.down)) {
      continue;
    }
    pattern.active.push_back(index);
    pattern.couplings.push_back({unknown(edge.up), unknown(edge.down)});
    if (is_unsymmetric(edge)) {
      pattern.shape = nodal::MatrixShape::Unsymmetric;
    }
  }
  return pattern;
}

State cold_state(const Problem& problem, const NodalPattern& pattern) {
  double highest = -std::numeric_limits<double>::infinity();
  for (const nodal::Node& node : problem.nodes) {
    highest = std::max(highest, node.fixed_head_m.value_or(highest));
  }
  for (const Edge& edge : problem.edges) {
    if (edge.kind == EdgeKind::LimitedSupply) {
      highest = std::max(highest, edge.level_m);
    }
  }
  State state;
  state.head_m.assign(problem.nodes.size(), highest);
  state.flow_m3_s.assign(problem.edges.size(), 0.0);
  for (const std::size_t index : pattern.active) {
    state.flow_m3_s[index] = problem.edges[index].start_flow_m3_s;
  }
  return state;
}

double head_at(const Problem& problem, const State& state, std::size_t node) {
  if (node == outside) {
    return 0.0;
  }
  return problem.nodes[node].fixed_head_m.value_or(state.head_m[node]);
}

void fill_step(nodal::LinearStep& step,
               const Problem& problem,
               const NodalPattern& pattern,
               const State& state,
               double smoothing_m) {
  const nodal::Smoothing smoothing{nodal::SolveOptions{}.scale_s_m2, smoothing_m};
  step.clear(1e-12);
  for (std::size_t i = 0; i < pattern.active.size(); ++i) {
    const std::size_t index = pattern.active[i];
    const Edge& edge = problem.edges[index];
    const double flow = state.flow_m3_s[index];
    const nodal::EdgeResidual residual =
        nodal::smoothed_residual(edge,
                                 flow,
                                 head_at(problem, state, edge.up),
                                 head_at(problem, state, edge.down),
                                 nodal::edge_loss(problem, index, flow),
                                 smoothing);
    const double gain = -1.0 / residual.by_flow_s_m2;
    step.add(i, gain * residual.by_head_up, gain * residual.by_head_down);
  }
}

}  // namespace leat::tests
