// How a head or a flow of a solved network answers to any of its numbers, by one transposed solve
// of the last exact Jacobian (the adjoint). See METHOD.md, "Sensitivities".
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "solver/nodal/problem.h"

namespace leat::nodal {

/// A sum of heads and flows, each with its weight: what the derivatives are of. Nodes and edges may
/// stand in it several times.
struct Aim {
  struct Term {
    std::size_t index = 0;  // node or edge
    double weight = 1.0;
  };
  std::vector<Term> heads;
  std::vector<Term> flows;
};

[[nodiscard]] Aim aim_at_head(std::size_t node);
[[nodiscard]] Aim aim_at_flow(std::size_t edge);

/// Derivatives of an aim J. Those of nodes and edges that carry no equation (shut, not reached) are
/// 0.
struct Sensitivity {
  bool is_known = false;              // false: a singular matrix, or a ram in the network
  std::vector<double> by_residual;    // per edge: dJ by a number added to its r(q, Hu, Hd) [.. /m]
  std::vector<double> by_inflow;      // per node: dJ by water given to it [.. /(m3/s)]
  std::vector<double> by_fixed_head;  // per node: dJ by its given head, 0 where it is sought
};

/// Numbers of an edge that an aim can be asked about.
enum class EdgeNumber {
  Level,         // level_m
  ShutLevel,     // shut_level_m
  OpeningHead,   // opening_head_m
  Limit,         // limit_m3_s
  LinearLoss,    // linear_loss_s_m2, where it is the edge's law or its join
  FloorLoss,     // floor_loss_s_m2
  VelocityHead,  // velocity_head_s2_m5
  Loss           // h(q) itself, as if it were greater by a number [m]
};

/// dr by one of an edge's numbers, on the piece of its equation that holds at a flow and two heads.
/// At a kink, where two pieces hold, the derivative of one of them.
[[nodiscard]] double residual_by(const Edge& edge,
                                 EdgeNumber number,
                                 double flow_m3_s,
                                 double head_up_m,
                                 double head_down_m,
                                 const Loss& loss,
                                 double scale_s_m2 = 1e5);

/// The Jacobian of a solved problem, factorised once for as many aims as are asked. The problem and
/// the state must outlive it. Stores are held at their heads' own slope, as in a step of time.
class Sensitivities {
 public:
  Sensitivities(const Problem& problem, const State& solved);
  ~Sensitivities();
  Sensitivities(Sensitivities&&) noexcept;
  Sensitivities& operator=(Sensitivities&&) noexcept;
  Sensitivities(const Sensitivities&) = delete;
  Sensitivities& operator=(const Sensitivities&) = delete;

  /// All derivatives of one aim: one transposed solve. An aim at a head that is NaN has none.
  [[nodiscard]] Sensitivity of(const Aim& aim);

 private:
  struct Workspace;
  std::unique_ptr<Workspace> workspace_;
};

}  // namespace leat::nodal
