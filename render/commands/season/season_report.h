// A season as a table for a person: who goes short, when and why, first.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/document/text_table.h"
#include "render/io/terminal_style.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

struct SeasonTableOptions {
  model::UnitSystem units = model::UnitSystem::Metric;
  std::string dates_chosen;              // why these dates, where none were asked for; else empty
  std::optional<std::string> until_dry;  // the spring whose yield was lowered
  bool leaves_notes_out = false;         // says how many there are instead
};

/// The screen of `leat season` for an answer that converged; at most `widest_text` columns.
[[nodiscard]] std::string season_table(const model::Farm& farm,
                                       const solver::SeasonAnswer& answer,
                                       const SeasonTableOptions& options,
                                       const Terminal& terminal);

/// Who goes short, why, and what a day looks like there; the verdict first.
[[nodiscard]] std::vector<std::string> season_sentences(const model::Farm& farm,
                                                        const solver::SeasonAnswer& answer,
                                                        model::UnitSystem units);

/// What each trough got over the season, and month by month; some may have no rows.
[[nodiscard]] std::vector<TextTable> season_tables(const model::Farm& farm,
                                                   const solver::SeasonAnswer& answer,
                                                   model::UnitSystem units);

/// Tanks and ponds; some may have no rows.
[[nodiscard]] std::vector<TextTable> water_tables(const model::Farm& farm,
                                                  const solver::SeasonAnswer& answer,
                                                  model::UnitSystem units);

}  // namespace leat::render
