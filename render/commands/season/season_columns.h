// A season's months as the columns of a table or a picture; where they are very many, its years.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/date.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

/// A month or a year, as far as it lies in the season.
struct SeasonColumn {
  model::Date first;
  model::Date last;   // counted in
  std::string label;  // "Aug" or "2026"
  bool is_year = false;
};

/// The months from one day to another, both counted in; the years where the months are more than
/// `most_months`. Empty where `to` comes before `from`.
[[nodiscard]] std::vector<SeasonColumn> season_columns(model::Date from,
                                                       model::Date to,
                                                       std::size_t most_months);

/// What a trough gets in a column, or in several.
struct SeasonCell {
  double got_m3 = 0.0;
  double need_m3 = 0.0;
  double dry_h = 0.0;
  std::optional<double> met;  // none without a need
};

[[nodiscard]] SeasonCell cell_of(const solver::TroughSeason& trough, const SeasonColumn& column);
/// The whole season.
[[nodiscard]] SeasonCell cell_of(const solver::TroughSeason& trough);

}  // namespace leat::render
