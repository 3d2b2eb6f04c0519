// The study as a whole: load cases, a float that hangs open, and farms that cannot be solved.
#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/steady/steady.h"
#include "tests/render/words/told_farm.h"

namespace leat::tests {

using solver::PlaceState;

namespace {

const char* const two_troughs = R"(
farm: two troughs
ponds: {house: {surface: 100 m, intake: 98 m}}
tees: {t: 90 m}
troughs: {low: {float: 80 m, need: 0.1 L/s}, high: {float: 92 m, need: 0.2 L/s}}
pipes:
  a: {from: house, to: t, size: 1 in SIDR 15, length: 60 m}
  l: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}
  h: {from: t, to: high, size: 1 in SIDR 15, length: 60 m}
)";

ToldFarm with_broken(const std::string& trough) {
  solver::SteadyOptions options;
  options.broken = trough;
  return told(two_troughs, options);
}

}  // namespace

TEST_CASE("a float that hangs open starves the trough above it and tells what is lost") {
  const ToldFarm farm = with_broken("low");
  CHECK(farm.answer.broken == "low");
  CHECK(farm.place("low").delivered_m3_s > litres(0.5));
  CHECK(farm.place("high").state == PlaceState::Dry);
  REQUIRE(farm.notes().size() >= 2);
  const std::string lost = farm.notes()[0];
  CHECK(lost.find("the float of low hangs open") != std::string::npos);
  CHECK(lost.find("to waste") != std::string::npos);
  // Left alone the pond falls to its intake, which stands above the trough.
  CHECK(farm.notes()[1] == "left alone, house can fall to 98.00 m");
}

TEST_CASE("findings are told in the units of the farm or in those asked for") {
  const ToldFarm farm = told(R"(
farm: units
springs: {up: {overflow: 100 m, yield: 0.5 L/s}}
troughs: {low: {float: 90 m, need: 0.2 L/s}}
pipes: {a: {from: up, to: low, size: 1 in SIDR 15, length: 60 m}}
)");
  CHECK(farm.text(solver::Code::Spills, "up") == "up spills 18 L/min");
  CHECK(farm.text(solver::Code::Spills, "up", model::UnitSystem::Us) == "up spills 4.76 gal/min");
}

}  // namespace leat::tests
