// Days of the calendar.
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

#include "model/farm/month_series.h"

namespace leat::model {

/// A day of the Gregorian calendar.
struct Date {
  int year = 1970;
  int month = 1;  // 1 to 12
  int day = 1;    // 1 to 31

  friend constexpr auto operator<=>(const Date&, const Date&) = default;
  friend constexpr bool operator==(const Date&, const Date&) = default;
};

/// Days since 1970-01-01, negative before it.
[[nodiscard]] int day_number(Date date);
/// The date of a day number: the inverse of `day_number`.
[[nodiscard]] Date date_of_day(int day_number);
/// A date in ISO 8601's extended form, "2026-08-14", years 1 to 9999; nothing for any other text
/// and for days that no calendar has.
[[nodiscard]] std::optional<Date> parse_date(std::string_view text);
/// "2026-08-14".
[[nodiscard]] std::string date_text(Date date);
/// The month a date lies in.
[[nodiscard]] constexpr Month month_of(Date date) {
  return static_cast<Month>(date.month - 1);
}
/// Days of a month; February has 28, since a value by month belongs to no one year.
[[nodiscard]] int days_of_month(Month month);

/// A value measured on a day.
template <class Value>
struct Dated {
  Date on;
  Value value;
};

}  // namespace leat::model
