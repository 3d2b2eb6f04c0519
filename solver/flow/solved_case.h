// One load case of a farm, solved to the end: the network, what it brought about, its figures.
#pragma once

#include <vector>

#include "solver/answer/steady_answer.h"
#include "solver/flow/flow_state.h"
#include "solver/flow/status_changes.h"
#include "solver/flow/warm_solver.h"

namespace leat::solver {

/// What the rounds before the last one brought about.
struct Happenings {
  std::vector<BrokenLine> broken_lines;
  std::vector<DrawingTee> drawing_tees;
};

/// A load case with its answer. `places` and `pipes` are empty where the state is not usable.
struct SolvedCase {
  LoadCase load_case = LoadCase::Needs;
  FlowState state;
  Happenings happenings;
  int iterations = 0;  // of all rounds
  std::vector<PlaceAnswer> places;
  std::vector<PipeAnswer> pipes;

  [[nodiscard]] bool is_static() const { return load_case == LoadCase::Static; }
};

/// Solves `needs` or `wide`: again and again while siphons break and tees draw air. The first round
/// begins with `warm`, where there is one.
[[nodiscard]] SolvedCase solve_running_case(const model::Farm& farm,
                                            const Surroundings& surroundings,
                                            NetworkOptions options,
                                            WarmSolver* warm = nullptr);

/// The farm with everything shut: heads by graph search, no flow.
[[nodiscard]] SolvedCase solve_static_case(const model::Farm& farm,
                                           const Surroundings& surroundings,
                                           NetworkOptions options);

}  // namespace leat::solver
