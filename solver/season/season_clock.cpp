#include "solver/season/season_clock.h"

#include <algorithm>
#include <cmath>

#include "model/quantity/conversion.h"
#include "solver/hydrology/calendar.h"

namespace leat::solver {

std::optional<SeasonProblem> step_problem(double step_s) {
  const bool is_in_range = step_s >= least_season_step_s && step_s <= longest_season_step_s;
  return is_in_range ? std::nullopt : std::optional<SeasonProblem>(StepOutOfRange{});
}

std::optional<SeasonProblem> dates_problem(model::Date from, model::Date to) {
  if (to < from) {
    return EndsBeforeItBegins{from, to};
  }
  if (model::day_number(to) - model::day_number(from) >= longest_season_days) {
    return SeasonTooLong{};
  }
  return std::nullopt;
}

StepDays days_from(model::Date day, model::Date last, double step_s) {
  StepDays found;
  found.first = day;
  if (step_s <= seconds_per_day) {
    found.parts = static_cast<int>(std::ceil(seconds_per_day / step_s - 1e-9));
    return found;
  }
  const int wanted = static_cast<int>(std::floor(step_s / seconds_per_day + 1e-9));
  const int in_month = hydrology::days_in_month(day.year, day.month) - day.day + 1;
  const int left = model::day_number(last) - model::day_number(day) + 1;
  found.days = std::max(1, std::min({wanted, in_month, left}));
  return found;
}

}  // namespace leat::solver
