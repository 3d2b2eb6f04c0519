#include "model/farm/month_series.h"

#include <array>
#include <optional>

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"

using namespace leat;         // NOLINT(google-build-using-namespace)
using namespace leat::model;  // NOLINT(google-build-using-namespace)

namespace {

using GivenFlows = std::array<std::optional<Flow>, 12>;

/// The example of FORMAT.md: Apr 9, Jul 2.5, Aug 0.9, Nov 4 (any unit).
GivenFlows spring_of_the_format() {
  GivenFlows given{};
  given[static_cast<std::size_t>(Month::Apr)] = litres_per_second(9.0);
  given[static_cast<std::size_t>(Month::Jul)] = litres_per_second(2.5);
  given[static_cast<std::size_t>(Month::Aug)] = litres_per_second(0.9);
  given[static_cast<std::size_t>(Month::Nov)] = litres_per_second(4.0);
  return given;
}

double in_month(const MonthSeries<Flow>& series, Month month) {
  return in_litres_per_second(series.at(month));
}

}  // namespace

TEST_CASE("a yield between two measured months is the lower of the two, around the year") {
  const MonthSeries<Flow> yield = fill_months(spring_of_the_format(), GapRule::Lower);
  const std::array<double, 12> expected = {
      4.0, 4.0, 4.0, 9.0, 2.5, 2.5, 2.5, 0.9, 0.9, 0.9, 4.0, 4.0};
  for (std::size_t i = 0; i < 12; ++i) {
    const Month month = static_cast<Month>(i);
    CAPTURE(name_of(month));
    CHECK(in_month(yield, month) == Approx(expected[i]).epsilon(1e-14));
  }
  CHECK(yield.varies);
}

TEST_CASE("a need between two measured months is the higher of the two, around the year") {
  const MonthSeries<Flow> need = fill_months(spring_of_the_format(), GapRule::Higher);
  const std::array<double, 12> expected = {
      9.0, 9.0, 9.0, 9.0, 9.0, 9.0, 2.5, 0.9, 4.0, 4.0, 4.0, 9.0};
  for (std::size_t i = 0; i < 12; ++i) {
    const Month month = static_cast<Month>(i);
    CAPTURE(name_of(month));
    CHECK(in_month(need, month) == Approx(expected[i]).epsilon(1e-14));
  }
}

TEST_CASE("a temperature between two measured months lies on their straight line") {
  std::array<std::optional<Temperature>, 12> given{};
  given[static_cast<std::size_t>(Month::Jan)] = celsius(0.0);
  given[static_cast<std::size_t>(Month::Jul)] = celsius(18.0);
  const MonthSeries<Temperature> water = fill_months(given, GapRule::Straight);
  CHECK(in_celsius(water.at(Month::Feb)) == Approx(3.0));
  CHECK(in_celsius(water.at(Month::Apr)) == Approx(9.0));
  CHECK(in_celsius(water.at(Month::Oct)) == Approx(9.0));
  CHECK(in_celsius(water.at(Month::Dec)) == Approx(3.0));
}

TEST_CASE("a month that was not measured is marked as assumed") {
  const MonthSeries<Flow> yield = fill_months(spring_of_the_format(), GapRule::Lower);
  CHECK_FALSE(yield.assumed_at(Month::Apr));
  CHECK_FALSE(yield.assumed_at(Month::Nov));
  CHECK(yield.assumed_at(Month::May));
  CHECK(yield.assumed_at(Month::Jan));
  CHECK_FALSE(yield.assumed_at(std::nullopt));
}

TEST_CASE("one measured month stands for the whole year") {
  GivenFlows given{};
  given[static_cast<std::size_t>(Month::Aug)] = litres_per_second(0.9);
  for (const GapRule rule : {GapRule::Lower, GapRule::Higher, GapRule::Straight}) {
    const MonthSeries<Flow> yield = fill_months(given, rule);
    for (std::size_t i = 0; i < 12; ++i) {
      CHECK(in_month(yield, static_cast<Month>(i)) == Approx(0.9).epsilon(1e-14));
    }
  }
}

TEST_CASE("a filled month lies between its measured neighbours", "[law]") {
  const MonthSeries<Flow> low = fill_months(spring_of_the_format(), GapRule::Lower);
  const MonthSeries<Flow> line = fill_months(spring_of_the_format(), GapRule::Straight);
  const MonthSeries<Flow> high = fill_months(spring_of_the_format(), GapRule::Higher);
  for (std::size_t i = 0; i < 12; ++i) {
    const Month month = static_cast<Month>(i);
    CAPTURE(name_of(month));
    CHECK(in_month(low, month) <= in_month(line, month) + 1e-12);
    CHECK(in_month(line, month) <= in_month(high, month) + 1e-12);
  }
}

TEST_CASE("a constant is the same with and without a month") {
  const MonthSeries<Flow> yield = MonthSeries<Flow>::constant(litres_per_second(0.3));
  CHECK(yield.at(std::nullopt) == yield.at(Month::Sep));
  CHECK_FALSE(yield.varies);
  CHECK_FALSE(yield.assumed_at(Month::Sep));
}

TEST_CASE("months go by their three letters exactly as written") {
  CHECK(month_named("Aug") == Month::Aug);
  CHECK(name_of(Month::Dec) == "Dec");
  for (const char* wrong : {"aug", "AUG", "August", "Au", "", "8"}) {
    CAPTURE(wrong);
    CHECK_FALSE(month_named(wrong).has_value());
  }
}
