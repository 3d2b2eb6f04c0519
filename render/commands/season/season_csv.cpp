#include "render/commands/season/season_csv.h"

#include <vector>

#include "render/commands/season/season_answer_columns.h"

namespace leat::render {

namespace {

/// Cells of an object, then those of one of the objects it holds.
std::string csv_line_of(std::vector<std::string> cells, const std::vector<std::string>& part) {
  cells.insert(cells.end(), part.begin(), part.end());
  return csv_line(cells);
}

template <class Row>
std::string levels_of(const std::vector<Row>& stores) {
  std::string text;
  for (const Row& store : stores) {
    for (const solver::DatedLevel& level : store.answer.levels) {
      text += csv_line_of({store.farm.places.at(store.answer.place).name},
                          csv_cells(dated_level_columns(), level));
    }
  }
  return text;
}

}  // namespace

std::string season_troughs_csv(const model::Farm& farm,
                               const solver::SeasonAnswer& answer,
                               model::UnitSystem units) {
  std::string text =
      csv_line_of(csv_headings(trough_season_columns()), csv_headings(month_columns()));
  for (const TroughSeasonRow& row : trough_season_rows(farm, answer, units)) {
    for (const MonthRow& month : month_rows(row)) {
      text +=
          csv_line_of(csv_cells(trough_season_columns(), row), csv_cells(month_columns(), month));
    }
  }
  return text;
}

std::string season_tanks_csv(const model::Farm& farm, const solver::SeasonAnswer& answer) {
  return csv_text(tank_season_columns(), season_rows(farm, answer.tanks));
}

std::string season_ponds_csv(const model::Farm& farm, const solver::SeasonAnswer& answer) {
  return csv_text(pond_season_columns(), season_rows(farm, answer.ponds));
}

std::string season_levels_csv(const model::Farm& farm, const solver::SeasonAnswer& answer) {
  return csv_line_of({"name"}, csv_headings(dated_level_columns())) +
         levels_of(season_rows(farm, answer.tanks)) + levels_of(season_rows(farm, answer.ponds));
}

std::string season_balance_csv(const solver::SeasonAnswer& answer) {
  return csv_text(balance_columns(), {answer.balance});
}

}  // namespace leat::render
