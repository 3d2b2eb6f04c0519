// How much a trough or tank must hold: the season's answer beside balances worked out by hand.
#include "solver/size/store_season.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "solver/size/size.h"
#include "tests/support/farm_text.h"

namespace leat {
namespace {

using model::Month;
using solver::StoreSeason;

/// The search stops within 2 %, hours of drinking are met within a step.
Approx about(double value) {
  return Approx(value).epsilon(0.03);
}

/// A spring of `yield` above a tank, a trough that drinks 1200 L a day within 6 h below it.
std::string tank_farm(const std::string& yield) {
  return "farm: tank\nsite: {water: 12 C}\n"
         "springs: {box: {overflow: 60 m, intake: 59.8 m, yield: " +
         yield +
         "}}\n"
         "tanks: {store: {floor: 50 m, full: 2 m, diameter: 2 m}}\n"
         "troughs: {yard: {float: 30 m, need: 1200 L/day, within: 6 h, seat: 12 mm}}\n"
         "pipes:\n  fill: {from: box, to: store, size: 1 in SIDR 15, length: 60 m}\n"
         "  draw: {from: store, to: yard, size: 1 in SIDR 15, length: 100 m}\n";
}

constexpr std::size_t store = 1;
constexpr std::size_t yard = 2;

TEST_CASE("a spring that gives less than is drunk empties a tank by the difference of a month",
          "[size]") {
  const model::Farm farm = tests::farm_of(tank_farm("0.7 L/min"));
  // Full until the first day's drinking begins; from then to the end of the 31st day's the spring
  // brings 0.7 L/min for 30 days and 6 hours.
  const double by_hand_m3 = 31.0 * 1.2 - 30.25 * 0.7e-3 * 1440.0;
  CHECK(StoreSeason(farm, Month::Jul).for_the_month_m3(store).value() == about(by_hand_m3));
}

TEST_CASE("a tank cut off from its spring for three days must hold three days' drinking",
          "[size]") {
  const model::Farm farm = tests::farm_of(tank_farm("9 L/min"));
  const StoreSeason season(farm, Month::Jul);
  CHECK(season.without_inflow_m3(store, 3).value() == about(3.6));
  CHECK(season.without_inflow_m3(yard, 1).value() == about(1.2));
}

TEST_CASE("a tank beside the line must hold three days' drinking too, for when the spring is dry",
          "[size]") {
  const model::Farm farm = tests::farm_of(
      "farm: beside\nsite: {water: 12 C}\n"
      "springs: {box: {overflow: 49 m, intake: 48.8 m, yield: 9 L/min}}\n"
      "tanks: {store: {floor: 50 m, full: 2 m, diameter: 2 m}}\n"
      "tees: {fork: 40 m}\n"
      "troughs: {yard: {float: 30 m, need: 1200 L/day, within: 6 h, seat: 12 mm}}\n"
      "pipes:\n  fill: {from: box, to: fork, size: 1 in SIDR 15, length: 60 m, one-way: yes}\n"
      "  draw: {from: store, to: fork, size: 1 in SIDR 15, length: 60 m}\n"
      "  down: {from: fork, to: yard, size: 1 in SIDR 15, length: 100 m}\n");
  CHECK(StoreSeason(farm, Month::Jul).without_inflow_m3(1, 3).value() == about(3.6));
}

TEST_CASE("of two years the one with more measured days of the month is run", "[size]") {
  // In July of 2023 the spring gives plenty, on each of thirty days; of 2024 one dry day is known.
  model::Farm farm = tests::farm_of(tank_farm("9 L/min"));
  auto& spring = std::get<model::Spring>(farm.places[0].data);
  for (int day = 1; day <= 30; ++day) {
    spring.yield_record.push_back({{2023, 7, day}, litres_per_second(0.15)});
  }
  spring.yield_record.push_back({{2024, 7, 31}, litres_per_second(0.001)});
  CHECK(StoreSeason(farm, Month::Jul).for_the_month_m3(store).value() == 0.0);
}

TEST_CASE("a spring that gives within the hours what is drunk in them asks for no tank", "[size]") {
  const model::Farm farm = tests::farm_of(tank_farm("9 L/min"));
  CHECK(StoreSeason(farm, Month::Jul).for_the_month_m3(store).value() == 0.0);
}

TEST_CASE("a trough on a slow spring holds what its herd drinks ahead of the spring", "[size]") {
  const model::Farm farm = tests::farm_of(
      "farm: slow\nsite: {water: 12 C}\n"
      "springs: {box: {overflow: 60 m, intake: 59.8 m, yield: 1 L/min}}\n"
      "troughs: {yard: {float: 30 m, need: 1200 L/day, within: 6 h, seat: 12 mm}}\n"
      "pipes:\n  line: {from: box, to: yard, size: 1 in SIDR 15, length: 160 m}\n");
  // 1200 L in six hours, of which the spring brings 360 L meanwhile.
  CHECK(StoreSeason(farm, Month::Jul).for_the_month_m3(1).value() == about(0.84));
}

TEST_CASE("where the water is not there in a day no size of trough or tank is named", "[size]") {
  const model::Farm farm = tests::farm_of(
      "farm: none\nsite: {water: 12 C}\n"
      "springs: {box: {overflow: 60 m, intake: 59.8 m, yield: 9 L/min}}\n"
      "tanks: {store: {floor: 30 m, full: 2 m, diameter: 2 m}}\n"
      "troughs: {above: {float: 45 m, need: 1200 L/day, seat: 12 mm}}\n"
      "pipes:\n  fill: {from: box, to: store, size: 1 in SIDR 15, length: 60 m}\n"
      "  draw: {from: store, to: above, size: 1 in SIDR 15, length: 100 m}\n");
  const StoreSeason season(farm, Month::Jul);
  CHECK_FALSE(season.for_the_month_m3(store).has_value());
  CHECK_FALSE(season.without_inflow_m3(store, 3).has_value());
}

TEST_CASE("a farm whose pipes are laid is told what its troughs and tanks must hold", "[size]") {
  const solver::SizePlan plan = solver::size_plan(tests::farm_of(tank_farm("0.7 L/min")), {});
  REQUIRE(plan.problems.empty());
  CHECK(plan.runs.empty());
  const auto of_month = [](const solver::StoreRule& rule) {
    return rule.place == store && rule.source == solver::StoreSource::Season && rule.is_least;
  };
  CHECK(std::count_if(plan.stores.begin(), plan.stores.end(), of_month) == 1);
}

}  // namespace
}  // namespace leat
