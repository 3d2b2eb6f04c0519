// Solves the draws of a spread: quickly from the answer of the farm as written where nothing but
// numbers differs, else from nothing, as `solve` would.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/flow/flow_state.h"
#include "solver/flow/warm_solver.h"
#include "solver/uncertainty/uncertain_inputs.h"

namespace leat::solver {

/// An inner point of a path, where water may part should the path turn downward there.
struct PathVertex {
  std::size_t pipe = 0;
  double at_m = 0.0;
  bool is_summit = false;  // of the farm as written
};

/// What every draw begins with. Read by all threads, changed by none.
struct SpreadBase {
  const model::Farm* farm = nullptr;
  NetworkOptions options;  // of the first round: no line broken, no tee open
  Surroundings surroundings;
  FlowState start;          // the first round's answer
  bool has_rounds = false;  // the farm as written breaks lines or opens tees
  std::vector<UncertainInput> inputs;
  std::uint64_t seed = 1;
  std::vector<PathVertex> vertices;
  std::vector<std::size_t> first_vertex;  // by pipe, and one more: the end
};

/// The base of a farm that can be solved. `farm` must outlive it.
[[nodiscard]] SpreadBase spread_base(const model::Farm& farm,
                                     const NetworkOptions& options,
                                     std::uint64_t seed);

/// What is kept of one draw.
struct DrawnAnswer {
  enum class Way { Unsolved, Quick, Slow };
  Way way = Way::Unsolved;
  std::vector<double> delivered_m3_s;            // by place, as in PlaceAnswer
  std::vector<std::optional<double>> need_m3_s;  // by place, as drawn
  std::vector<bool> parts;                       // by vertex of the base
};

/// One thread's own copy of all that a draw changes. An answer does not depend on the draws before.
class DrawSolver {
 public:
  explicit DrawSolver(const SpreadBase& base);

  [[nodiscard]] DrawnAnswer solve(std::uint64_t draw);
  /// The same draw from nothing, with all its rounds: what `solve` must come to.
  [[nodiscard]] DrawnAnswer solve_from_nothing(std::uint64_t draw);

 private:
  void take(std::uint64_t draw);
  [[nodiscard]] bool solve_quickly(DrawnAnswer& answer);
  void solve_slowly(DrawnAnswer& answer) const;
  [[nodiscard]] bool spring_is_below_intake() const;
  [[nodiscard]] bool may_bring_about_more() const;
  [[nodiscard]] bool lets_air_in() const;
  void read_delivered(DrawnAnswer& answer) const;
  [[nodiscard]] bool read_parted(DrawnAnswer& answer) const;
  void read_needs(DrawnAnswer& answer) const;

  const SpreadBase* base_;
  model::Farm farm_;
  Surroundings surroundings_;
  WarmSolver warm_;
  FlowState state_;
};

}  // namespace leat::solver
