#include "render/pictures/chart/season_layout.h"

#include <algorithm>

#include <fmt/format.h>

#include "render/document/text_table.h"

namespace leat::render {

double SeasonLayout::column_width() const {
  return (right - left) / static_cast<double>(std::max<std::size_t>(columns.size(), 1));
}

double SeasonLayout::column_left(std::size_t column) const {
  return left + column_width() * static_cast<double>(column);
}

double SeasonLayout::x_of(model::Date date) const {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (date <= columns[i].last) {
      const double first = model::day_number(columns[i].first);
      const double days = model::day_number(columns[i].last) - first + 1.0;
      const double share = std::clamp((model::day_number(date) - first) / days, 0.0, 1.0);
      return column_left(i) + share * column_width();
    }
  }
  return right;
}

SeasonLayout season_layout(const solver::SeasonAnswer& answer) {
  constexpr std::size_t most_months = 24;
  return {season_columns(answer.from, answer.to, most_months)};
}

double write_columns(ChartSheet& sheet, const SeasonLayout& layout, double y) {
  const std::vector<SeasonColumn>& columns = layout.columns;
  if (columns.empty()) {
    return 0.0;
  }
  const bool by_year = columns.front().is_year;
  // So many years that their figures would touch: only some are written.
  const double needed =
      ChartSheet::width_of(by_year ? "2026" : "Aug") + 0.4 * ChartSheet::text_size;
  const auto every = static_cast<std::size_t>(std::max(1.0, needed / layout.column_width() + 0.99));
  const bool many_years = !by_year && columns.front().first.year != columns.back().first.year;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const double middle = layout.column_left(i) + layout.column_width() / 2.0;
    if (i % every == 0) {
      sheet.write(middle, y, columns[i].label, TextSide::Centre);
    }
    if (many_years && (i == 0 || columns[i].first.month == 1)) {
      sheet.write(middle,
                  y + ChartSheet::line_height,
                  fmt::format("{}", columns[i].first.year),
                  TextSide::Centre,
                  ChartSheet::text_size - 2.0,
                  ChartSheet::grey);
    }
  }
  return many_years ? 2.0 * ChartSheet::line_height : ChartSheet::line_height;
}

void write_name(ChartSheet& sheet, double y, const std::string& name) {
  constexpr double gap = 12.0;
  constexpr double margin = 14.0;
  int widest = widest_name;
  while (widest > 4 &&
         ChartSheet::width_of(cut_to_width(name, widest)) > SeasonLayout::left - gap - margin) {
    --widest;
  }
  sheet.write(SeasonLayout::left - gap, y, cut_to_width(name, widest), TextSide::Right);
}

}  // namespace leat::render
