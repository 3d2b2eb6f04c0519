// What a place has to give, and how long a tank lasts that gives more than it is fed.
#include "solver/flow/place_supply.h"

#include <string>

#include <catch2/catch.hpp>

#include "solver/steady/steady.h"
#include "tests/support/farm_text.h"

namespace leat::solver {
namespace {

/// A spring fills a tank that a trough of 1 L/min draws from.
SteadyAnswer answer_with(const std::string& yield, const std::string& shape) {
  return solve_steady(
      tests::farm_of("farm: tank\nsite: {water: 12 C}\n"
                     "springs: {box: {overflow: 60 m, intake: 59.8 m, yield: " +
                     yield + "}}\ntanks: {store: {floor: 50 m, full: 2 m" + shape +
                     "}}\n"
                     "troughs: {yard: {float: 30 m, need: 1440 L/day, seat: 12 mm}}\n"
                     "pipes:\n  fill: {from: box, to: store, size: 1 in SIDR 15, length: 60 m}\n"
                     "  draw: {from: store, to: yard, size: 1 in SIDR 15, length: 100 m}\n"),
      {});
}

constexpr std::size_t spring = 0;
constexpr std::size_t tank = 1;
constexpr std::size_t trough = 2;

TEST_CASE("a tank that gives more than it is fed lasts what stands in it over the difference") {
  const SteadyAnswer answer = answer_with("0.75 L/min", ", volume: 3600 L");
  REQUIRE(answer.places[tank].stands_m3);
  CHECK(*answer.places[tank].stands_m3 == Approx(3.6));
  // 1 L/min drunk, 0.75 L/min fed: 360 L a day of 3600 L.
  CHECK(*answer.places[tank].lasts_s == Approx(10.0 * 86400.0).epsilon(1e-3));
}

TEST_CASE("a tank whose area is not known cannot be said to last") {
  const SteadyAnswer answer = answer_with("0.75 L/min", "");
  CHECK_FALSE(answer.places[tank].stands_m3);
  CHECK(answer.places[tank].lasts_s == 0.0);
}

TEST_CASE("a tank that is fed what it gives has no time to last, nor has any other place") {
  const SteadyAnswer answer = answer_with("5 L/min", ", volume: 3600 L");
  for (const PlaceAnswer& place : answer.places) {
    CHECK_FALSE(place.lasts_s);
    CHECK_FALSE(place.stands_m3);
  }
}

TEST_CASE("a spring has its yield to give, a trough nothing") {
  const SteadyAnswer answer = answer_with("0.75 L/min", ", volume: 3600 L");
  CHECK(*answer.places[spring].has_to_give_m3_s == Approx(0.75e-3 / 60.0));
  CHECK_FALSE(answer.places[trough].has_to_give_m3_s);
}

}  // namespace
}  // namespace leat::solver
