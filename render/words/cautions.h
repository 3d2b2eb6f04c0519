// What to mind when building or running a line, as far as it applies to this farm.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/io/terminal_style.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// Short sentences, dangers to life first; the last is always that local codes and licensed people
/// decide. The answer must have converged.
[[nodiscard]] std::vector<std::string> cautions_for(const model::Farm& farm,
                                                    const solver::SteadyAnswer& answer);

/// The same behind "Mind:", in lines for a screen.
[[nodiscard]] std::string cautions_text(const model::Farm& farm,
                                        const solver::SteadyAnswer& answer,
                                        const Terminal& terminal);

/// The same of the farm alone, where no one moment was solved.
[[nodiscard]] std::string cautions_text(const model::Farm& farm, const Terminal& terminal);

}  // namespace leat::render
