// What is wrong with a farm, as tests ask it.
#pragma once

#include <algorithm>
#include <vector>

#include "model/keys/farm_checks.h"

namespace leat::tests {

/// Every check of a whole farm that was not read from a file. Problems sorted.
inline std::vector<model::Diagnostic> check_farm(const model::Farm& farm) {
  model::ProblemList problems(farm.file);
  for (const model::Pipe& pipe : farm.pipes) {
    check_pipe_meets_places(farm, pipe, problems);
  }
  check_connections(farm, {}, problems);
  return problems.sorted();
}

/// Whether at least one of the problems is an error.
inline bool has_error(const std::vector<model::Diagnostic>& problems) {
  return std::any_of(problems.begin(), problems.end(), [](const model::Diagnostic& problem) {
    return problem.severity == model::Severity::Error;
  });
}

}  // namespace leat::tests
