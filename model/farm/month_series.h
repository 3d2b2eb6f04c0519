// A value for each month of the year.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <type_traits>

namespace leat::model {

enum class Month { Jan, Feb, Mar, Apr, May, Jun, Jul, Aug, Sep, Oct, Nov, Dec };

inline constexpr std::array<std::string_view, 12> month_names = {
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

/// The month's three-letter name.
constexpr std::string_view name_of(Month month) {
  return month_names[static_cast<std::size_t>(month)];
}

/// The month with that three-letter name, matched exactly.
constexpr std::optional<Month> month_named(std::string_view name) {
  for (std::size_t i = 0; i < month_names.size(); ++i) {
    if (month_names[i] == name) {
      return static_cast<Month>(i);
    }
  }
  return std::nullopt;
}

/// How a month between two measured months gets its value (FORMAT.md): the lower of the two
/// (yield, flow, spare, surface, rain), the higher (need, herd, evaporation), or the straight line
/// (temperatures).
enum class GapRule { Lower, Higher, Straight };

/// A value that may change with the month. A constant has the same value twelve times.
template <class Value>
struct MonthSeries {
  std::array<Value, 12> by_month{};
  std::array<bool, 12> assumed{};  // true where the month was not given but filled by a GapRule
  bool varies = false;             // written as a month map

  [[nodiscard]] static MonthSeries constant(Value value) {
    MonthSeries series;
    series.by_month.fill(value);
    return series;
  }
  /// The mid-month value; without a month, January's (right only where nothing varies).
  [[nodiscard]] Value at(std::optional<Month> month) const {
    return by_month[static_cast<std::size_t>(month.value_or(Month::Jan))];
  }
  [[nodiscard]] bool assumed_at(std::optional<Month> month) const {
    return month && assumed[static_cast<std::size_t>(*month)];
  }
};

/// Fills the twelve months from those given (at least one), around the year.
template <class Value>
[[nodiscard]] MonthSeries<Value> fill_months(const std::array<std::optional<Value>, 12>& given,
                                             GapRule rule) {
  MonthSeries<Value> series;
  series.varies = true;
  for (std::size_t month = 0; month < 12; ++month) {
    if (given[month]) {
      series.by_month[month] = *given[month];
      continue;
    }
    std::size_t back = 1;
    while (back < 12 && !given[(month + 12 - back) % 12]) {
      ++back;
    }
    std::size_t ahead = 1;
    while (ahead < 12 && !given[(month + ahead) % 12]) {
      ++ahead;
    }
    series.assumed[month] = true;
    if (back == 12) {
      continue;  // no month given at all: the caller has reported that
    }
    const Value before = *given[(month + 12 - back) % 12];
    const Value after = *given[(month + ahead) % 12];
    switch (rule) {
      case GapRule::Lower:
        series.by_month[month] = before < after ? before : after;
        break;
      case GapRule::Higher:
        series.by_month[month] = before < after ? after : before;
        break;
      case GapRule::Straight: {
        const double share = static_cast<double>(back) / static_cast<double>(back + ahead);
        if constexpr (std::is_arithmetic_v<Value>) {
          series.by_month[month] = before + share * (after - before);
        } else {
          const double mixed = before.in_si() + share * (after.in_si() - before.in_si());
          series.by_month[month] = Value::from_si(mixed);
        }
        break;
      }
    }
  }
  return series;
}

}  // namespace leat::model
