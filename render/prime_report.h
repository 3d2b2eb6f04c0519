// How a line is primed, on a sheet to take up the hill, and as JSON.
#pragma once

#include <string>

#include "model/farm.h"
#include "render/table_report.h"
#include "render/terminal_style.h"
#include "solver/prime.h"

namespace leat::render {

/// The screen of `leat prime` for a plan without problems; at most `widest_text` columns.
[[nodiscard]] std::string prime_table(const model::Farm& farm,
                                      const solver::PrimePlan& plan,
                                      const TableOptions& options,
                                      const Terminal& terminal);

/// The object of `leat prime --json` (keys: OUTPUT.md), ending in a newline.
[[nodiscard]] std::string prime_json(const model::Farm& farm, const solver::PrimePlan& plan);

}  // namespace leat::render
