// How long a tank lasts that gives more than it is fed.
#include "render/words/tank_text.h"

#include <catch2/catch.hpp>

#include "solver/steady/steady.h"
#include "tests/support/farm_text.h"

namespace leat::render {
namespace {

std::string told(const std::string& yield, const std::string& shape) {
  const model::Farm farm = tests::farm_of(
      "farm: tank\nsite: {water: 12 C}\n"
      "springs: {box: {overflow: 60 m, intake: 59.8 m, yield: " +
      yield + "}}\ntanks: {store: {floor: 50 m, full: 2 m" + shape +
      "}}\n"
      "troughs: {yard: {float: 30 m, need: 1440 L/day, seat: 12 mm}}\n"
      "pipes:\n  fill: {from: box, to: store, size: 1 in SIDR 15, length: 60 m}\n"
      "  draw: {from: store, to: yard, size: 1 in SIDR 15, length: 100 m}\n");
  return falling_tanks_text(farm, solver::solve_steady(farm, {}), farm.show, 100);
}

TEST_CASE("a tank that gives more than it is fed is told to last what stands in it over that") {
  // 1 L/min drunk, 0.75 L/min fed: 360 L a day of 3600 L.
  const std::string text = told("0.75 L/min", ", volume: 3600 L");
  CHECK(text.find("store gives 0.25 L/min more than comes in") != std::string::npos);
  CHECK(text.find("lasts 10.0 days") != std::string::npos);
  CHECK(told("0.75 L/min", "").find("it cannot last") != std::string::npos);
}

TEST_CASE("of a tank that is fed what it gives, or more, nothing is told") {
  CHECK(told("1 L/min", ", volume: 3600 L").empty());
  CHECK(told("5 L/min", "").empty());
}

}  // namespace
}  // namespace leat::render
