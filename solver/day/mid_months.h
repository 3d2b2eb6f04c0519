// Month maps as plain numbers, and where a day stands among the months.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <type_traits>

#include "model/farm/date.h"
#include "solver/hydrology/calendar.h"

namespace leat::solver {

/// The twelve mid-month values in SI (temperatures in Celsius, counts as they are).
template <class Value>
[[nodiscard]] std::array<double, 12> mid_months(const model::MonthSeries<Value>& series) {
  std::array<double, 12> values{};
  for (std::size_t month = 0; month < values.size(); ++month) {
    if constexpr (std::is_arithmetic_v<Value>) {
      values[month] = series.by_month[month];
    } else {
      values[month] = series.by_month[month].in_si();
    }
  }
  return values;
}

template <class Value>
[[nodiscard]] std::optional<std::array<double, 12>> mid_months(
    const std::optional<model::MonthSeries<Value>>& series) {
  return series ? std::optional(mid_months(*series)) : std::nullopt;
}

/// Where a day's noon stands between the middles of two months.
[[nodiscard]] inline hydrology::MonthPair noon_pair(model::Date date) {
  constexpr double noon_days = 0.5;
  return hydrology::month_pair(date.year,
                               hydrology::day_of_year(date.year, date.month, date.day) - noon_days);
}

}  // namespace leat::solver
