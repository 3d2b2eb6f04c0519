// A profile as a table for a person, as JSON and as CSV for scripts.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/commands/solve/table_report.h"
#include "render/document/text_table.h"
#include "render/io/terminal_style.h"
#include "solver/profile/profile.h"

namespace leat::render {

/// The points of the run, those that say nothing new left out.
[[nodiscard]] TextTable profile_points(const model::Farm& farm,
                                       const solver::Profile& profile,
                                       model::UnitSystem units);

/// Summits, reaches that are not full, what the pipe may carry: a sentence each.
[[nodiscard]] std::vector<std::string> profile_sentences(const solver::Profile& profile,
                                                         model::UnitSystem units);

/// The screen of `leat profile`: the points, then summits, reaches that are not full, and what is
/// wrong on the run.
[[nodiscard]] std::string profile_table(const model::Farm& farm,
                                        const solver::Profile& profile,
                                        const TableOptions& options,
                                        const Terminal& terminal);

/// The object of `leat profile --json` (OUTPUT.md); `written` is the picture's file, or empty.
[[nodiscard]] std::string profile_json(const model::Farm& farm,
                                       const solver::Profile& profile,
                                       const std::string& written,
                                       model::UnitSystem units);

/// The points, one a row, under the JSON's keys.
[[nodiscard]] std::string profile_csv(const model::Farm& farm, const solver::Profile& profile);

}  // namespace leat::render
