// Priming plans of random farms: whatever the line, its water adds up and nothing is said of things
// that are not there.
#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include <catch2/catch.hpp>

#include "solver/prime/prime.h"
#include "tests/support/random_farm.h"

namespace leat::tests {

namespace {

/// What is wrong with the plan; empty where nothing is.
std::string fault_of(const model::Farm& farm, const solver::PrimePlan& plan) {
  if (!plan.is_made()) {
    return "";
  }
  double legs = 0.0;
  for (const solver::PrimeLeg& leg : plan.course.legs) {
    legs += leg.volume_m3;
  }
  double pipes = 0.0;
  for (const std::size_t pipe : plan.course.line.pipes) {
    pipes += in_square_metres(bore_area(farm.pipes[pipe].size.bore)) *
             in_metres(farm.pipes[pipe].length);
  }
  double steps = 0.0;
  std::set<std::string> names;
  for (const model::Place& place : farm.places) {
    names.insert(place.name);
  }
  for (const model::Pipe& pipe : farm.pipes) {
    names.insert(pipe.name);
  }
  for (const solver::PrimeStep& step : plan.steps) {
    steps += step.volume_m3.value_or(0.0);
    if (names.count(step.where) == 0) {
      return "a step at nothing of the farm: " + step.where;
    }
    if (step.volume_m3.value_or(0.0) < 0.0 || !(step.time_s.value_or(0.0) >= 0.0)) {
      return "a step with less than nothing at " + step.where;
    }
  }
  if (std::abs(legs - pipes) > 1e-3 * pipes) {
    return "legs do not hold the pipes' water";
  }
  if (!plan.steps.empty() && std::abs(steps - pipes) > 1e-3 * pipes) {
    return "steps do not pour the pipes' water";
  }
  if (plan.steps.empty() != (plan.need == solver::PrimeNeed::CannotHold)) {
    return "steps where it cannot hold, or none where it can";
  }
  if (plan.refusal.has_value() != (plan.need == solver::PrimeNeed::CannotHold)) {
    return "a reason where it can hold, or none where it cannot";
  }
  return "";
}

}  // namespace

TEST_CASE("the priming plan of any farm pours what its pipes hold", "[law]") {
  int refused = 0;
  int primed = 0;
  int self_filling = 0;
  for (std::uint64_t seed = 1; seed <= 600; ++seed) {
    const model::Farm farm =
        random_farm(seed, seed % 2 == 0 ? FarmKind::Everything : FarmKind::Prototype);
    solver::PrimeOptions options;
    if (seed % 3 == 0) {
      options.pipe = farm.pipes[seed % farm.pipes.size()].name;
    }
    const solver::PrimePlan plan = solver::priming_plan(farm, options);
    CAPTURE(seed);
    REQUIRE(fault_of(farm, plan) == "");
    if (plan.is_made()) {
      refused += plan.need == solver::PrimeNeed::CannotHold ? 1 : 0;
      primed += plan.need == solver::PrimeNeed::ByHand ? 1 : 0;
      self_filling += plan.need == solver::PrimeNeed::FillsItself ? 1 : 0;
    }
  }
  // The farms must have shown all three, or this test says little.
  CHECK(refused > 10);
  CHECK(primed > 10);
  CHECK(self_filling > 10);
}

}  // namespace leat::tests
