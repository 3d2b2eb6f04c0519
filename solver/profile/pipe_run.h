// Which pipes a profile runs over: one pipe by name, the route between two places, or the pipe that
// most wants looking at.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/profile/run_problem.h"

namespace leat::solver {

/// One pipe of a run, walked from its `from` end to its `to` end, or against that.
struct RunLeg {
  std::size_t pipe = 0;
  bool against = false;

  /// The places the walk comes from and gets to.
  [[nodiscard]] std::size_t start_place(const model::Farm& farm) const;
  [[nodiscard]] std::size_t end_place(const model::Farm& farm) const;
};

/// The pipes in the order they are walked; empty where `problem` says why.
struct RunChoice {
  std::vector<RunLeg> legs;
  std::optional<RunProblem> problem;
};

/// The run that words name: a pipe's name, or "FROM..TO" for the route of fewest pipes between two
/// places, whichever way the file writes them. Several such routes are a problem that lists them.
[[nodiscard]] RunChoice run_named(const model::Farm& farm, const std::string& words);

/// The pipe that most wants looking at: that whose summit has the least margin, else the longest.
/// The answer must have converged.
[[nodiscard]] std::size_t telling_pipe(const model::Farm& farm, const SteadyAnswer& answer);

}  // namespace leat::solver
