// Days, months and values that are known in the middle of each month.
#pragma once

#include <array>
#include <cstddef>

namespace leat::hydrology {

/// Days in a month (1 to 12) of the Gregorian calendar.
[[nodiscard]] int days_in_month(int year, int month);

/// 365, or 366 in a leap year.
[[nodiscard]] int days_in_year(int year);

/// The day's number in its year: 1 on the first of January (the J of FAO-56).
[[nodiscard]] int day_of_year(int year, int month, int day);

/// Days from the year's first midnight to the middle of a month (1 to 12): 15.5 for January.
[[nodiscard]] double middle_of_month_days(int year, int month);

/// Where a moment stands between the middles of two neighbouring months (0 is January).
struct MonthPair {
  std::size_t before = 0;
  std::size_t after = 1;
  double share = 0.0;  // of the way from the middle of `before` to that of `after`: 0 to 1
};

/// The pair around a moment, `days` after the year's first midnight (see `monthly_at`). For many
/// maps read at one moment, find it once.
[[nodiscard]] MonthPair month_pair(int year, double days);

/// Twelve mid-month values, read between two of them.
[[nodiscard]] constexpr double between_months(const std::array<double, 12>& mid_month_values,
                                              const MonthPair& pair) {
  const double from = mid_month_values[pair.before];
  return from + pair.share * (mid_month_values[pair.after] - from);
}

/// Twelve mid-month values joined by straight lines around the year, read `days` after the year's
/// first midnight (0 to 365 or 366; noon of day J is J - 0.5). Continuous from one year to the
/// next, leap or not, since December and January are equally long.
[[nodiscard]] double monthly_at(const std::array<double, 12>& mid_month_values,
                                int year,
                                double days);

/// The exact mean of `monthly_at` over a month (1 to 12). It is not the mid-month value: where that
/// is a peak, the mean lies below it. For a month's sum (rain) use the sum over the days instead.
[[nodiscard]] double monthly_mean(const std::array<double, 12>& mid_month_values,
                                  int year,
                                  int month);

}  // namespace leat::hydrology
