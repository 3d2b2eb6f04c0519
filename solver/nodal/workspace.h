// What Newton's method works with: the state, its residuals, the step; kept from solve to solve.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "solver/nodal/linear_step.h"
#include "solver/nodal/problem.h"
#include "solver/nodal/residual.h"

namespace leat::nodal {

/// How far from the answer a state is.
struct Distance {
  double merit = 0.0;           // half the sum of squares of the smoothed system, heads [m2]
  double exact_m = 0.0;         // largest edge residual with true min and max
  double imbalance_m3_s = 0.0;  // largest node imbalance
  double largest_flow_m3_s = 0.0;
  double store_rounding_m3_s = 0.0;  // what a store's volume and level cannot tell apart in a step
};

/// The unknowns of one pattern and everything measured of them. Sizes are found once, from the
/// first problem; later ones must have its pattern.
struct Workspace {
  std::size_t unknowns = 0;
  std::vector<bool> reached;
  std::vector<std::size_t> unknown_of;  // node -> unknown, or no_unknown
  std::vector<std::size_t> active;      // edges whose flow is sought
  std::vector<std::size_t> limited;     // those of them that have a limit
  std::vector<std::size_t> stores;      // nodes that hold water
  /// A ram among the active edges: its place in `active` and its driver's, and where the pairs of
  /// unknowns (drive, delivery) and (supply, delivery) stand among the linear step's.
  struct ActiveRam {
    std::size_t at = 0;
    std::size_t driver_at = 0;
    std::size_t by_drive = 0;
    std::size_t by_supply = 0;
    std::size_t supply = no_unknown;
    RamResidual residual;  // of the state measured last
  };
  std::vector<ActiveRam> rams;
  MatrixShape shape = MatrixShape::Symmetric;
  std::vector<Coupling> couplings;  // of the active edges
  std::optional<LinearStep> linear;

  // All below: one entry an edge of the problem or a node, kept between steps and solves.
  State state;
  State trial;
  std::vector<Loss> losses;  // of the flows measured last
  std::vector<EdgeResidual> residuals;
  std::vector<double> imbalance_m3_s;
  std::vector<double> store_by_head_m2_s;  // of each of `stores`: area over step
  std::vector<double> flow_step_m3_s;
  std::vector<double> right_side;
  Distance without_limits;  // of the state measured last: what smoothing does not change
  double largest_head_m = 0.0;
  double judged_scale_s_m2 = 0.0;  // S of the stopping test, whatever S an attempt uses

  explicit Workspace(const Problem& problem);
  /// Asks every edge for its loss: the dearest part of a measurement.
  void find_losses(const Problem& problem, const State& at);
  /// Finds the rams among the active edges and the pairs of unknowns they couple.
  void find_rams(const Problem& problem, std::vector<Coupling>& pairs);
  /// The rams' part of a measurement.
  void measure_rams(const Problem& problem, const State& at, double scale, Distance& distance);
  /// How far `at` is from the answer of the smoothed system, with the losses found last (`exact_m`
  /// only as far as edges without limits go).
  Distance measure(const Problem& problem, const State& at, const Smoothing& smoothing);
  /// The same state with its limits smoothed otherwise.
  Distance measure_limits(const Problem& problem, const State& at, const Smoothing& smoothing);
  /// The largest residual of an edge with a limit, with true min and max.
  [[nodiscard]] double exact_residual(const Problem& problem, const State& at) const;
  [[nodiscard]] bool take_newton_step();
  void move(double share);
  void cold_start(const Problem& problem, double flow_factor);
  void warm_start(const Problem& problem, const State& warm);
  [[nodiscard]] static double highest_supply(const Problem& problem);
};

}  // namespace leat::nodal
