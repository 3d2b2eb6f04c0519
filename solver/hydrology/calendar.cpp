#include "solver/hydrology/calendar.h"

#include <chrono>

namespace leat::hydrology {
namespace {

std::chrono::sys_days days_at(int year, int month, int day) {
  return std::chrono::year{year} / month / day;
}

}  // namespace

int days_in_month(int year, int month) {
  const auto last = std::chrono::year{year} / month / std::chrono::last;
  return static_cast<int>(static_cast<unsigned>(last.day()));
}

int days_in_year(int year) {
  return std::chrono::year{year}.is_leap() ? 366 : 365;
}

int day_of_year(int year, int month, int day) {
  return static_cast<int>((days_at(year, month, day) - days_at(year, 1, 1)).count()) + 1;
}

double middle_of_month_days(int year, int month) {
  return day_of_year(year, month, 1) - 1 + 0.5 * days_in_month(year, month);
}

MonthPair month_pair(int year, double days) {
  constexpr double december_to_january_days = 31.0;  // half of each
  const double first = middle_of_month_days(year, 1);
  if (days < first) {
    return {.before = 11, .after = 0, .share = 1.0 - (first - days) / december_to_january_days};
  }
  int month = 12;
  while (month > 1 && days < middle_of_month_days(year, month)) {
    --month;
  }
  const double middle = middle_of_month_days(year, month);
  if (month == 12) {
    return {.before = 11, .after = 0, .share = (days - middle) / december_to_january_days};
  }
  const auto before = static_cast<std::size_t>(month - 1);
  const double gap = middle_of_month_days(year, month + 1) - middle;
  return {.before = before, .after = before + 1, .share = (days - middle) / gap};
}

double monthly_at(const std::array<double, 12>& mid_month_values, int year, double days) {
  return between_months(mid_month_values, month_pair(year, days));
}

double monthly_mean(const std::array<double, 12>& mid_month_values, int year, int month) {
  // Two straight halves of equal length: (start + 2 middle + end) / 4.
  const double half = 0.5 * days_in_month(year, month);
  const double middle = middle_of_month_days(year, month);
  return 0.25 * (monthly_at(mid_month_values, year, middle - half) +
                 2.0 * monthly_at(mid_month_values, year, middle) +
                 monthly_at(mid_month_values, year, middle + half));
}

}  // namespace leat::hydrology
