// The equation of one edge: its residual and exact derivatives, smoothed for the iteration or as it
// stands for the stopping test.
#pragma once

#include "solver/nodal/problem.h"

namespace leat::nodal {

/// r [m] and its derivatives by flow (< 0), head up (>= 0) and head down (<= 0).
struct EdgeResidual {
  double residual_m = 0.0;
  double by_flow_s_m2 = 0.0;
  double by_head_up = 0.0;
  double by_head_down = 0.0;
};

/// How limits are put together: `scale` is S [s/m2], `smoothing` is mu [m]. With mu = 0 each edge
/// has the residual and derivatives of the piece that holds.
struct Smoothing {
  double scale_s_m2 = 2e5;
  double smoothing_m = 0.0;
};

/// The residual of a Link: no limit, so nothing to smooth.
[[nodiscard]] inline EdgeResidual link_residual(double head_up_m,
                                                double head_down_m,
                                                const Loss& loss) {
  return {head_up_m - head_down_m - loss.loss_m, -loss.slope_s_m2, 1.0, -1.0};
}

/// The smoothed residual of an edge at a flow and its two heads. `loss` is the edge's own loss at
/// that flow. Heads outside the network are not read.
[[nodiscard]] EdgeResidual smoothed_residual(const Edge& edge,
                                             double flow_m3_s,
                                             double head_up_m,
                                             double head_down_m,
                                             const Loss& loss,
                                             const Smoothing& smoothing);

/// The residual with true min and max: what must vanish at the answer [m].
[[nodiscard]] double exact_residual_m(const Edge& edge,
                                      double flow_m3_s,
                                      double head_up_m,
                                      double head_down_m,
                                      const Loss& loss,
                                      double scale_s_m2);

/// The loss of an edge at a flow: its own law, or the linear one.
[[nodiscard]] inline Loss edge_loss(const Problem& problem, std::size_t edge, double flow_m3_s) {
  const Edge& data = problem.edges[edge];
  if (data.has_loss) {
    return problem.loss(edge, flow_m3_s);
  }
  return {data.linear_loss_s_m2 * flow_m3_s, data.linear_loss_s_m2};
}

/// The residual of a Ram, S (phi q' - q), and its derivatives: it has no limit of its own, but two
/// unknowns more than other edges.
struct RamResidual {
  EdgeResidual residual;              // by its own flow and the head at `down`
  double by_driving_flow_s_m2 = 0.0;  // >= 0
  double by_supply_head = 0.0;        // >= 0
};

/// The residual of a Ram at its flow, the driving flow, the head it delivers against and the head
/// that falls. Without a fall it lifts nothing.
[[nodiscard]] RamResidual ram_residual(const Problem& problem,
                                       std::size_t edge,
                                       double flow_m3_s,
                                       double driving_flow_m3_s,
                                       double head_down_m,
                                       double supply_head_m,
                                       double scale_s_m2);

/// Whether the edge's flow enters or leaves a node on whose head it does not equally depend, so
/// that the nodal matrix is not symmetric.
[[nodiscard]] bool makes_unsymmetric(const Edge& edge);

}  // namespace leat::nodal
