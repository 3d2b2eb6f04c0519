// The answer for a person: who gets what, where it comes from, what is wrong, what to mind.
#pragma once

#include <string>

#include "model/farm.h"
#include "render/command_line.h"
#include "render/terminal_style.h"
#include "solver/nodal/solve_report.h"
#include "solver/steady_answer.h"

namespace leat::render {

struct TableOptions {
  model::UnitSystem units = model::UnitSystem::Metric;
  Detail detail = Detail::Short;  // verbose adds the pipes
};

/// The lines an answer's table begins with: farm, month, load case, datum, units.
[[nodiscard]] std::string answer_heading(const model::Farm& farm,
                                         const solver::SteadyAnswer& answer,
                                         const TableOptions& options,
                                         const Terminal& terminal);

/// The screen of `leat solve` for an answer that converged; at most `widest_text` columns.
[[nodiscard]] std::string solve_table(const model::Farm& farm,
                                      const solver::SteadyAnswer& answer,
                                      const TableOptions& options,
                                      const Terminal& terminal);

/// The iterations of the last solve, one line each, and why it stopped.
[[nodiscard]] std::string iteration_table(const nodal::SolveReport& report);

}  // namespace leat::render
