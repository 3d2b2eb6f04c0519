// How sure an answer is, on the screen and for scripts.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/farm/farm.h"
#include "render/commands/exit_code.h"
#include "render/commands/solve/table_report.h"
#include "render/document/text_table.h"
#include "render/io/terminal_style.h"
#include "solver/uncertainty/spread.h"

namespace leat::render {

/// Low, likely and high for each place that gets water.
[[nodiscard]] TextTable spread_places(const model::Farm& farm,
                                      const solver::Spread& spread,
                                      model::UnitSystem units);
/// How the draws were made.
[[nodiscard]] std::vector<std::string> spread_remarks(const model::Farm& farm,
                                                      const solver::Spread& spread);
/// What may go short or part, what makes most of the spread, what to measure next.
[[nodiscard]] std::vector<std::string> spread_sentences(const model::Farm& farm,
                                                        const solver::Spread& spread,
                                                        model::UnitSystem units);

/// "Most of the spread comes from the level of north (61 %): level it again ... Then ...".
/// `of_what` is "the spread", or which.
[[nodiscard]] std::string causes_sentence(const std::vector<solver::Cause>& causes,
                                          std::string_view of_what);

/// What is said behind how the draws were made: that no instrument is named, that so many draws
/// were left out. Empty where neither.
[[nodiscard]] std::vector<std::string> remarks_on_draws(const model::Farm& farm, int unsolved);

/// What stands below the answer's own table: low, likely and high for each place, what may go short
/// or part, what makes most of the spread and what to measure next. At most `widest_text` columns.
[[nodiscard]] std::string spread_table(const model::Farm& farm,
                                       const solver::Spread& spread,
                                       const TableOptions& options,
                                       const Terminal& terminal);

/// The object of `leat solve --spread --json` (keys: OUTPUT.md), ending in a newline.
[[nodiscard]] std::string spread_json(const model::Farm& farm,
                                      const solver::Spread& spread,
                                      model::UnitSystem units);

/// The places of that object, a row each.
[[nodiscard]] std::string spread_csv(const model::Farm& farm, const solver::Spread& spread);

/// As of the answer, and amiss as well where the low case says no: a trough goes short, or a summit
/// parts, in at least one draw of twenty.
[[nodiscard]] ExitCode exit_code_of(const solver::Spread& spread);

}  // namespace leat::render
