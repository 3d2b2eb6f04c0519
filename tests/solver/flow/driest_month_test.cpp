// Which month is solved for when none is asked.
#include "solver/flow/driest_month.h"

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

model::Farm farm_with(const std::string& yield, const std::string& need, const std::string& creek) {
  return farm_of("farm: months\nsprings: {up: {overflow: 100 m, yield: " + yield +
                 "}}\ncreeks: {ford: {surface: 95 m" + creek +
                 "}}\ntees: {t: 85 m}\ntroughs: {low: {float: 80 m, need: " + need +
                 "}}\npipes:\n  a: {from: up, to: t, size: 1 in SIDR 15, length: 60 m}\n"
                 "  c: {from: ford, to: t, size: 1 in SIDR 15, length: 60 m}\n"
                 "  b: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}\n");
}

}  // namespace

TEST_CASE("the month in which springs and creeks together give least is taken") {
  const model::Farm farm = farm_with("{Jan: 2 L/s, Aug: 0.2 L/s, Sep: 0.3 L/s, Oct: 2 L/s}",
                                     "{Jan: 0.9 L/s, Feb: 0.1 L/s}",
                                     ", flow: {Jan: 9 L/s, Aug: 5 L/s, Sep: 1 L/s, Oct: 9 L/s}");
  CHECK(solver::depends_on_month(farm));
  CHECK(solver::driest_month(farm) == model::Month::Sep);
}

TEST_CASE("the first of equally dry months is taken") {
  const model::Farm farm =
      farm_with("{Jan: 2 L/s, May: 2 L/s, Jun: 1 L/s, Jul: 1 L/s, Aug: 2 L/s}", "0.1 L/s", "");
  CHECK(solver::driest_month(farm) == model::Month::Jun);
}

TEST_CASE("where no supply varies the month of greatest need is taken") {
  std::string needs = "{";
  for (const std::string_view month : model::month_names) {
    needs += std::string(month) + (month == "May" ? ": 0.5 L/s, " : ": 0.1 L/s, ");
  }
  needs += "}";
  const model::Farm farm = farm_with("1 L/s", needs, "");
  CHECK(solver::driest_month(farm) == model::Month::May);
}

TEST_CASE("where nothing changes with the month there is none") {
  const model::Farm farm = farm_with("1 L/s", "0.1 L/s", ", flow: 3 L/s");
  CHECK_FALSE(solver::depends_on_month(farm));
  CHECK_FALSE(solver::driest_month(farm));
  solver::SteadyOptions options;
  options.month = model::Month::Jul;
  CHECK_FALSE(solver::solve_steady(farm, options).month);
}

TEST_CASE("the month asked for is the month solved") {
  solver::SteadyOptions options;
  options.month = model::Month::Apr;
  const model::Farm farm =
      farm_with("{Mar: 0.3 L/s, Apr: 0.3 L/s, Aug: 0.2 L/s, Sep: 0.4 L/s}", "1 L/s", "");
  const solver::SteadyAnswer april = solver::solve_steady(farm, options);
  const solver::SteadyAnswer driest = solver::solve_steady(farm, {});
  REQUIRE(april.month);
  CHECK(*april.month == model::Month::Apr);
  CHECK_FALSE(april.month_chosen);
  CHECK(april.places[0].delivered_m3_s == Approx(-litres(0.3)));
  // A month between April and August has the lower of the two, so the dry time starts in May.
  CHECK(driest.month == model::Month::May);
  CHECK(driest.month_chosen);
  CHECK(driest.places[0].delivered_m3_s == Approx(-litres(0.2)));
}

}  // namespace leat::tests
