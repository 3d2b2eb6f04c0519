// What can shut on a farm, and how hard the water knocks when it does.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/findings/judging.h"

namespace leat::solver {

/// The hardest knock that one pipe sees.
struct Knock {
  double head_m = 0.0;
  Closing closing;
  double closing_s = 0.0;
  LoadCase load_case = LoadCase::Needs;
};

/// Of each pipe between something that shuts and the open water nearest to it: the hardest knock of
/// all running cases (a head of 0 where nothing runs). Empty for pipes that no knock was worked out
/// for: nothing shuts there, or the wall or modulus of the pipe that is shut is not known.
[[nodiscard]] std::vector<std::optional<Knock>> knocks_of(const Judging& on);

/// Whether a float or valve of the pipe itself shuts off its water.
[[nodiscard]] bool something_shuts(const model::Farm& farm, const model::Pipe& pipe);

}  // namespace leat::solver
