// How a season is cut into steps: whole days, or equal parts of a day, never over a month's end.
#pragma once

#include <optional>

#include "model/farm/date.h"
#include "solver/answer/season_problem.h"

namespace leat::solver {

/// What a season may be run with.
inline constexpr double least_season_step_s = 60.0;
inline constexpr double longest_season_step_s = 7.0 * 86400.0;
inline constexpr int longest_season_days = 50 * 366;

/// Days that share one network: one day cut into `parts` equal steps, or several days in one step.
struct StepDays {
  model::Date first;
  int days = 1;
  int parts = 1;

  [[nodiscard]] double step_s() const { return 86400.0 * days / parts; }
};

/// Why no season has this step, or runs between these dates; nothing where one does.
[[nodiscard]] std::optional<SeasonProblem> step_problem(double step_s);
[[nodiscard]] std::optional<SeasonProblem> dates_problem(model::Date from, model::Date to);

/// The stretch of days that begins on `day`, at most to `last` (counted) and the month's end. A
/// step that does not divide the day is shortened until it does; one above a day takes whole days.
[[nodiscard]] StepDays days_from(model::Date day, model::Date last, double step_s);

}  // namespace leat::solver
