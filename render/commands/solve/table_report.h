// The answer for a person: who gets what, where it comes from, what is wrong, what to mind.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/document/text_table.h"
#include "render/io/terminal_style.h"
#include "render/words/detail.h"
#include "solver/answer/steady_answer.h"
#include "solver/nodal/solve_report.h"

namespace leat::render {

struct TableOptions {
  model::UnitSystem units = model::UnitSystem::Metric;
  Detail detail = Detail::Short;  // verbose adds the pipes
};

/// Who gets what, where it comes from, what every pipe does; some may have no rows. For an answer
/// that converged, not of the static case.
[[nodiscard]] std::vector<TextTable> answer_tables(const model::Farm& farm,
                                                   const solver::SteadyAnswer& answer,
                                                   model::UnitSystem units);

/// "Aug, chosen as the driest month; case needs: ...".
[[nodiscard]] std::string case_text(const model::Farm& farm, const solver::SteadyAnswer& answer);

/// "levels in m above the datum (doorstep = 50 m), flows in L/min, pressures in kPa".
[[nodiscard]] std::string units_text(const model::Farm& farm, model::UnitSystem units);

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
