// What was measured against what was computed, and what explains the difference.
#pragma once

#include <string>
#include <string_view>

#include "model/farm/farm.h"
#include "render/commands/solve/table_report.h"
#include "render/document/text_table.h"
#include "render/io/terminal_style.h"
#include "solver/fit/fit.h"

namespace leat::render {

/// What the chances of a fit rest on.
inline constexpr std::string_view fit_remark =
    "The chances hold if one thing alone is wrong; how likely each is beforehand is common "
    "practice, not measured. Sizes in brackets: 95 %. K tells what a fitting takes: an elbow about "
    "0.7, a poppet foot valve about 10; leat fittings lists them.";

/// What was measured beside what is computed; no rows without measurements.
[[nodiscard]] TextTable readings_table(const model::Farm& farm,
                                       const solver::FitAnswer& answer,
                                       model::UnitSystem units);

/// The screen of `leat fit` for a farm that has an answer; at most `widest_text` columns.
[[nodiscard]] std::string fit_table(const model::Farm& farm,
                                    const solver::FitAnswer& answer,
                                    const TableOptions& options,
                                    const Terminal& terminal);

/// The object of `leat fit --json` (keys: OUTPUT.md), ending in a newline; `units` are those of its
/// sentences.
[[nodiscard]] std::string fit_json(const model::Farm& farm,
                                   const solver::FitAnswer& answer,
                                   model::UnitSystem units);

/// The causes as CSV: the keys of JSON's `causes`, one row an entry.
[[nodiscard]] std::string fit_csv(const model::Farm& farm, const solver::FitAnswer& answer);

}  // namespace leat::render
