#include "solver/hydrology/calendar.h"

#include <array>

#include <catch2/catch.hpp>

namespace leat::hydrology {
namespace {

constexpr std::array<double, 12> spring_yield = {
    9.0, 8.5, 12.0, 15.0, 11.0, 7.0, 4.0, 2.0, 2.5, 3.0, 6.0, 8.0};

TEST_CASE("February has a day more in leap years of the Gregorian rule") {
  CHECK(days_in_month(2026, 2) == 28);
  CHECK(days_in_month(2028, 2) == 29);
  CHECK(days_in_month(1900, 2) == 28);
  CHECK(days_in_month(2000, 2) == 29);
  CHECK(days_in_month(2026, 4) == 30);
  CHECK(days_in_month(2026, 12) == 31);
  CHECK(days_in_year(2026) == 365);
  CHECK(days_in_year(2028) == 366);
}

TEST_CASE("a day's number in the year is that of the handbook's examples", "[reference]") {
  // FAO-56 examples 8, 17, 18, 20 (reference J2): 3 September 246, 15 April 105, 6 July 187, 15
  // July 196, in a year of 365 days.
  CHECK(day_of_year(2026, 9, 3) == 246);
  CHECK(day_of_year(2026, 4, 15) == 105);
  CHECK(day_of_year(2026, 7, 6) == 187);
  CHECK(day_of_year(2026, 7, 15) == 196);
  CHECK(day_of_year(2028, 12, 31) == 366);
}

TEST_CASE("a month's value holds in its middle and the straight line runs from one to the next") {
  for (const int year : {2026, 2028}) {
    for (int month = 1; month <= 12; ++month) {
      CAPTURE(year, month);
      CHECK(monthly_at(spring_yield, year, middle_of_month_days(year, month)) ==
            Approx(spring_yield.at(static_cast<std::size_t>(month - 1))));
    }
  }
  // From the middle of June, 151 + 15 = 166, to that of July, 181 + 15.5 = 196.5: halfway 181.25.
  CHECK(monthly_at(spring_yield, 2026, 181.25) == Approx(0.5 * (7.0 + 4.0)));
  // From the middle of December to that of January are 31 days, the year turns halfway.
  CHECK(monthly_at(spring_yield, 2026, 0.0) == Approx(0.5 * (8.0 + 9.0)));
}

TEST_CASE("the turn of a year makes no step in what a month map says", "[law]") {
  for (const int year : {2026, 2027, 2028}) {
    CAPTURE(year);
    CHECK(monthly_at(spring_yield, year, days_in_year(year)) ==
          Approx(monthly_at(spring_yield, year + 1, 0.0)));
  }
  for (int hour = 0; hour < 365 * 24; ++hour) {
    // The steepest stretch, March to April, is 3 in 30.5 days: under 0.14 a day.
    const double from = monthly_at(spring_yield, 2026, hour / 24.0);
    const double to = monthly_at(spring_yield, 2026, (hour + 1) / 24.0);
    REQUIRE(std::abs(to - from) < 0.15 / 24.0);
  }
}

TEST_CASE("a month's mean is that of its hours and below the value of a peak month") {
  for (int month = 1; month <= 12; ++month) {
    const int hours = 24 * days_in_month(2028, month);
    const double start = middle_of_month_days(2028, month) - hours / 48.0;
    double sum = 0.0;
    for (int hour = 0; hour < hours; ++hour) {
      sum += monthly_at(spring_yield, 2028, start + (hour + 0.5) / 24.0);
    }
    CAPTURE(month);
    CHECK(monthly_mean(spring_yield, 2028, month) == Approx(sum / hours).epsilon(1e-5));
  }
  CHECK(monthly_mean(spring_yield, 2026, 4) < 15.0);
  CHECK(monthly_mean(spring_yield, 2026, 8) > 2.0);
}

}  // namespace
}  // namespace leat::hydrology
