#include "model/farm/date.h"

#include <array>
#include <chrono>

#include <fmt/format.h>

namespace leat::model {

int day_number(Date date) {
  const std::chrono::year_month_day day{std::chrono::year(date.year),
                                        std::chrono::month(static_cast<unsigned>(date.month)),
                                        std::chrono::day(static_cast<unsigned>(date.day))};
  return static_cast<int>(std::chrono::sys_days(day).time_since_epoch().count());
}

Date date_of_day(int day_number) {
  const std::chrono::year_month_day day{std::chrono::sys_days(std::chrono::days(day_number))};
  return Date{static_cast<int>(day.year()),
              static_cast<int>(static_cast<unsigned>(day.month())),
              static_cast<int>(static_cast<unsigned>(day.day()))};
}

std::optional<Date> parse_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') {
    return std::nullopt;
  }
  std::array<int, 3> parts{};
  std::size_t part = 0;
  for (const char c : text) {
    if (c == '-') {
      ++part;
    } else if (c >= '0' && c <= '9' && part < parts.size()) {
      parts[part] = parts[part] * 10 + (c - '0');
    } else {
      return std::nullopt;
    }
  }
  const std::chrono::year_month_day day{std::chrono::year(parts[0]),
                                        std::chrono::month(static_cast<unsigned>(parts[1])),
                                        std::chrono::day(static_cast<unsigned>(parts[2]))};
  return parts[0] > 0 && day.ok() ? std::optional(Date{parts[0], parts[1], parts[2]})
                                  : std::nullopt;
}

std::string date_text(Date date) {
  return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

int days_of_month(Month month) {
  constexpr std::array<int, 12> days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return days[static_cast<std::size_t>(month)];
}

}  // namespace leat::model
