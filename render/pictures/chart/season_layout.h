// The columns all parts of a season's picture share, and how they stand on the sheet.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/commands/season/season_columns.h"
#include "render/pictures/chart/chart_sheet.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

/// Equal columns, one a month (or a year), from `left` to `right`.
struct SeasonLayout {
  static constexpr double left = 200.0;
  static constexpr double right = 925.0;  // what a dashed line means stands right of it
  std::vector<SeasonColumn> columns;

  [[nodiscard]] double column_width() const;
  [[nodiscard]] double column_left(std::size_t column) const;
  /// Where the midnight a day begins with stands: evenly within its column.
  [[nodiscard]] double x_of(model::Date date) const;
};

/// Months of two years are shown one by one, of more by year.
[[nodiscard]] SeasonLayout season_layout(const solver::SeasonAnswer& answer);

/// Writes the columns' names with their middle at `y`, and the year below the first column and each
/// January where there are several. Returns the height taken.
double write_columns(ChartSheet& sheet, const SeasonLayout& layout, double y);

/// A name left of the columns, cut to the room it has.
void write_name(ChartSheet& sheet, double y, const std::string& name);

}  // namespace leat::render
