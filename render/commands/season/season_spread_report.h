// How sure a season is, on the screen and for scripts.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/commands/exit_code.h"
#include "render/commands/solve/table_report.h"
#include "render/document/text_table.h"
#include "render/io/terminal_style.h"
#include "solver/uncertainty/season_spread.h"

namespace leat::render {

/// What troughs get, when they first go short and for how long, how low tanks and ponds fall, when
/// ponds are full; some
/// may have no rows.
[[nodiscard]] std::vector<TextTable> season_spread_tables(const model::Farm& farm,
                                                          const solver::SeasonSpread& spread,
                                                          model::UnitSystem units);
/// How the draws were made, and what is not among them.
[[nodiscard]] std::vector<std::string> season_spread_remarks(const model::Farm& farm,
                                                             const solver::SeasonSpread& spread);
/// Who may go short and from when, what may run empty, part or break, what makes most of the
/// spread and what to measure next.
[[nodiscard]] std::vector<std::string> season_spread_sentences(const model::Farm& farm,
                                                               const solver::SeasonSpread& spread,
                                                               model::UnitSystem units);

/// What stands below the season's own table. At most `widest_text` columns.
[[nodiscard]] std::string season_spread_table(const model::Farm& farm,
                                              const solver::SeasonSpread& spread,
                                              const TableOptions& options,
                                              const Terminal& terminal);

/// The object of `leat season --spread --json` (keys: OUTPUT.md), ending in a newline.
[[nodiscard]] std::string season_spread_json(const model::Farm& farm,
                                             const solver::SeasonSpread& spread,
                                             model::UnitSystem units);

/// The troughs, tanks or ponds of that object, a row each.
[[nodiscard]] std::string season_spread_troughs_csv(const model::Farm& farm,
                                                    const solver::SeasonSpread& spread);
[[nodiscard]] std::string season_spread_tanks_csv(const model::Farm& farm,
                                                  const solver::SeasonSpread& spread);
[[nodiscard]] std::string season_spread_ponds_csv(const model::Farm& farm,
                                                  const solver::SeasonSpread& spread);

/// As of the season, and amiss as well where the low case says no: a trough goes short, a summit
/// parts or a line breaks in at least one draw of twenty.
[[nodiscard]] ExitCode exit_code_of(const solver::SeasonSpread& spread);

}  // namespace leat::render
