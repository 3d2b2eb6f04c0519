// What helps a trough that goes short, best first: for a person and for a script.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "render/commands/solve/table_report.h"
#include "render/io/terminal_style.h"
#include "solver/improve/improve.h"

namespace leat::render {

/// The screen of `leat improve`: the best changes in a table, what to know of them in sentences,
/// the best pair, valves, air. Verbose lists every change solved.
[[nodiscard]] std::string improve_table(const model::Farm& farm,
                                        const solver::ImprovePlan& plan,
                                        const TableOptions& options,
                                        const Terminal& terminal);
/// The object of `leat improve --json` (OUTPUT.md).
[[nodiscard]] std::string improve_json(const model::Farm& farm,
                                       const solver::ImprovePlan& plan,
                                       model::UnitSystem units);
/// One row a change; new flags as "code at place", with "; " between.
[[nodiscard]] std::string improve_csv(const solver::ImprovePlan& plan);

}  // namespace leat::render
