// What one page looks at: the moment of the year and what is asked of the water.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/keys/farm_file.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// As the options of `leat solve`; absent: what the command takes without them.
struct PageView {
  solver::LoadCase load_case = solver::LoadCase::Needs;
  std::optional<model::Month> month;
  std::optional<std::string> broken;       // trough whose float hangs open
  std::optional<model::UnitSystem> units;  // the farm's own when absent
};

[[nodiscard]] solver::SteadyOptions options_of(const PageView& view);

/// What the solver found amiss with a farm, with the line it stands in.
[[nodiscard]] std::string solver_problems_text(std::vector<model::Diagnostic> problems,
                                               const model::LoadedFarm& loaded);

}  // namespace leat::render
