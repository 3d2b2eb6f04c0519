// No random farm is left unsolved, and every answer obeys the laws of water.
#include <cmath>
#include <map>
#include <string>

#include <catch2/catch.hpp>

#include "solver/flow/flow_state.h"
#include "solver/steady/steady.h"
#include "tests/support/farms_asked.h"
#include "tests/support/random_farm.h"
#include "tests/support/water_laws.h"

namespace leat::tests {

namespace {

struct Tally {
  std::uint64_t farms = 0;
  std::uint64_t unsolved = 0;
  std::uint64_t restarted = 0;
  std::map<int, std::uint64_t> by_iterations;

  [[nodiscard]] double mean() const {
    double sum = 0.0;
    for (const auto& [iterations, count] : by_iterations) {
      sum += iterations * static_cast<double>(count);
    }
    return sum / static_cast<double>(farms);
  }
  /// Share of the farms solved within so many iterations.
  [[nodiscard]] double within(int limit) const {
    std::uint64_t count = 0;
    for (const auto& [iterations, farms_there] : by_iterations) {
      count += iterations <= limit ? farms_there : 0;
    }
    return static_cast<double>(count) / static_cast<double>(farms);
  }
  [[nodiscard]] std::string histogram() const {
    std::string text = "iterations: farms";
    for (const auto& [iterations, count] : by_iterations) {
      text += "\n" + std::to_string(iterations) + ": " + std::to_string(count);
    }
    return text + "\nmean " + std::to_string(mean()) + ", restarted " + std::to_string(restarted);
  }
};

Tally solve_all(FarmKind kind, std::uint64_t first, std::uint64_t count) {
  Tally tally;
  for (std::uint64_t seed = first; seed < first + count; ++seed) {
    const model::Farm farm = random_farm(seed, kind);
    solver::NetworkOptions options;
    options.load_case = seed % 5 == 0 ? solver::LoadCase::Wide : solver::LoadCase::Needs;
    const solver::Surroundings around = solver::surroundings_of(farm, std::nullopt);
    const solver::FlowState state = solver::solve_flow(farm, around, options);
    ++tally.farms;
    ++tally.by_iterations[state.solution.report.iterations];
    tally.restarted += state.solution.report.restarts > 0 ? 1 : 0;
    if (!state.solution.report.is_usable()) {
      ++tally.unsolved;
      UNSCOPED_INFO("seed " << seed << ": " << state.solution.report.sentence);
      continue;
    }
    const auto broken = broken_law(state);
    if (broken) {
      INFO("seed " << seed << ": " << *broken);
      CHECK_FALSE(broken);
    }
  }
  return tally;
}

}  // namespace

TEST_CASE("every random farm of the prototype's kind is solved in few iterations", "[law][slow]") {
  const Tally tally = solve_all(FarmKind::Prototype, 1, farms_asked() / 2);
  INFO(tally.histogram());
  CHECK(tally.unsolved == 0);
  CHECK(tally.mean() <= 9.5);
  CHECK(tally.within(18) >= 0.99);
  if (farms_asked_by_name()) {
    WARN(tally.histogram());
  }
}

TEST_CASE("every random farm with everything in it is solved", "[law][slow]") {
  const Tally tally = solve_all(FarmKind::Everything, 1, farms_asked() / 2);
  INFO(tally.histogram());
  CHECK(tally.unsolved == 0);
  CHECK(tally.mean() <= 12.0);
  if (farms_asked_by_name()) {
    WARN(tally.histogram());
  }
}

TEST_CASE("every load case of a random farm ends in an answer or a problem, never both", "[law]") {
  for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
    const model::Farm farm = random_farm(seed, FarmKind::Everything);
    for (const solver::LoadCase load_case :
         {solver::LoadCase::Needs, solver::LoadCase::Wide, solver::LoadCase::Static}) {
      solver::SteadyOptions options;
      options.load_case = load_case;
      const solver::SteadyAnswer answer = solver::solve_steady(farm, options);
      INFO("seed " << seed << " case " << solver::word_of(load_case));
      REQUIRE(answer.converged);
      REQUIRE(answer.problems.empty());
      REQUIRE(answer.places.size() == farm.places.size());
      REQUIRE(answer.pipes.size() == farm.pipes.size());
      for (const solver::Finding& flag : answer.flags) {
        REQUIRE_FALSE(flag.where.empty());
        REQUIRE(std::isfinite(flag.value.value_or(0.0)));
        REQUIRE(std::isfinite(flag.limit.value_or(0.0)));
      }
      for (std::size_t i = 0; i < answer.pipes.size(); ++i) {
        REQUIRE(answer.pipes[i].part_full_m <= in_metres(farm.pipes[i].length) * (1.0 + 1e-9));
      }
      for (const solver::PipeAnswer& pipe : answer.pipes) {
        REQUIRE(std::isfinite(pipe.flow_m3_s));
        REQUIRE(std::isfinite(pipe.part_full_m));
        // Nothing is emptier than empty, and no reach is longer than its pipe.
        REQUIRE(pipe.lowest_pressure_Pa.value_or(0.0) >= -answer.air_pressure_Pa);
        REQUIRE(pipe.part_full_m >= 0.0);
      }
    }
  }
}

}  // namespace leat::tests
