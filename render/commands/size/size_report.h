// The pipe chosen, as a shopping list on the screen, as CSV and as JSON.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "render/commands/solve/table_report.h"
#include "render/io/terminal_style.h"
#include "solver/size/size.h"

namespace leat::render {

/// The screen of `leat size`; at most `widest_text` columns.
[[nodiscard]] std::string size_table(const model::Farm& farm,
                                     const solver::SizePlan& plan,
                                     const TableOptions& options,
                                     const Terminal& terminal);

/// A line a part: pipe,size,length_m,cost.
[[nodiscard]] std::string size_csv(const model::Farm& farm, const solver::SizePlan& plan);

/// The object of `leat size --json` (keys: OUTPUT.md), ending in a newline.
[[nodiscard]] std::string size_json(const model::Farm& farm,
                                    const solver::SizePlan& plan,
                                    model::UnitSystem units);

}  // namespace leat::render
