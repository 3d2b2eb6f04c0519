#include "render/commands/season/season_columns.h"

#include <algorithm>
#include <functional>

#include <fmt/format.h>

namespace leat::render {

namespace {

/// Months since year 0, so that months of different years compare.
int month_number(int year, int month) {
  return year * 12 + month - 1;
}

int month_number(const model::Date& date) {
  return month_number(date.year, date.month);
}

model::Date first_of_month(int number) {
  return {number / 12, number % 12 + 1, 1};
}

SeasonCell gathered(const solver::TroughSeason& trough,
                    const std::function<bool(const solver::MonthAtTrough&)>& belongs) {
  SeasonCell cell;
  double met_m3 = 0.0;
  double asked_m3 = 0.0;
  std::optional<double> only;
  int count = 0;
  for (const solver::MonthAtTrough& month : trough.months) {
    if (!belongs(month)) {
      continue;
    }
    cell.got_m3 += month.got_m3;
    cell.need_m3 += month.need_m3;
    cell.dry_h += month.dry_h;
    if (month.met) {
      met_m3 += *month.met * month.need_m3;
      asked_m3 += month.need_m3;
      only = month.met;
      ++count;
    }
  }
  if (count == 1) {
    cell.met = only;  // as the solver gave it
  } else if (count > 1 && asked_m3 > 0.0) {
    cell.met = std::min(1.0, met_m3 / asked_m3);
  }
  return cell;
}

}  // namespace

std::vector<SeasonColumn> season_columns(model::Date from,
                                         model::Date to,
                                         std::size_t most_months) {
  std::vector<SeasonColumn> columns;
  if (to < from) {
    return columns;
  }
  const bool by_year =
      static_cast<std::size_t>(month_number(to) - month_number(from) + 1) > most_months;
  if (by_year) {
    for (int year = from.year; year <= to.year; ++year) {
      columns.push_back({std::max(from, model::Date{year, 1, 1}),
                         std::min(to, model::Date{year, 12, 31}),
                         fmt::format("{}", year),
                         true});
    }
    return columns;
  }
  for (int number = month_number(from); number <= month_number(to); ++number) {
    const model::Date next = first_of_month(number + 1);
    columns.push_back({std::max(from, first_of_month(number)),
                       std::min(to, model::date_of_day(model::day_number(next) - 1)),
                       std::string(model::name_of(static_cast<model::Month>(number % 12))),
                       false});
  }
  return columns;
}

SeasonCell cell_of(const solver::TroughSeason& trough, const SeasonColumn& column) {
  const int first = month_number(column.first);
  const int last = month_number(column.last);
  return gathered(trough, [first, last](const solver::MonthAtTrough& month) {
    const int number = month_number(month.year, static_cast<int>(month.month) + 1);
    return number >= first && number <= last;
  });
}

SeasonCell cell_of(const solver::TroughSeason& trough) {
  return gathered(trough, [](const solver::MonthAtTrough&) { return true; });
}

}  // namespace leat::render
