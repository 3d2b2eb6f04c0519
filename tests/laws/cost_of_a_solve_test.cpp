// What a solve may cost, in counts that no clock disturbs: iterations of a warm start, which
// factorisation is used, how often the heap is asked. The times are in tests/bench.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/nodal/newton.h"
#include "tests/support/allocation_count.h"
#include "tests/support/nodal_pattern.h"
#include "tests/support/random_network.h"

namespace leat::tests {

using nodal::MatrixShape;
using nodal::NodalSolver;
using nodal::Solution;
using nodal::SolveOptions;

namespace {

/// Random farms of one matrix shape, with something to solve.
std::vector<RandomNetwork> farms_of_shape(MatrixShape shape, std::size_t count) {
  std::vector<RandomNetwork> farms;
  for (std::uint64_t seed = 1; farms.size() < count; ++seed) {
    RandomNetwork farm = random_network(seed, FarmKind::Everything);
    const NodalPattern pattern = pattern_of(farm.problem());
    if (pattern.shape == shape && pattern.heads > 0) {
      farms.push_back(std::move(farm));
    }
  }
  return farms;
}

/// Heap requests of one factorisation and one solve of the farm's matrix, analysis behind it.
std::uint64_t requests_of_a_step(const RandomNetwork& farm) {
  const NodalPattern pattern = pattern_of(farm.problem());
  const nodal::State state = cold_state(farm.problem(), pattern);
  nodal::LinearStep step(pattern.heads, pattern.couplings, pattern.shape);
  std::vector<double> right_side(pattern.heads, 1.0);
  std::uint64_t requests = 0;
  for (int i = 0; i < 3; ++i) {
    fill_step(step, farm.problem(), pattern, state, 1.0);
    const std::uint64_t before = heap_requests();
    const bool factorised = step.factorise();
    step.solve(right_side);
    requests = heap_requests() - before;
    REQUIRE(factorised);
  }
  return requests;
}

/// Heap requests of a cold solve that is stopped after so many iterations. The solver is not new.
std::uint64_t requests_of_a_solve(NodalSolver& solver, const RandomNetwork& farm, int iterations) {
  SolveOptions options;
  options.iteration_limit = iterations;
  const std::uint64_t before = heap_requests();
  const Solution solution = solver.solve(farm.problem(), options);
  return heap_requests() - before;
}

}  // namespace

TEST_CASE(
    "after one yield changes by a twentieth nearly all farms are solved again within three steps",
    "[law]") {
  // Newton's error falls quadratically from the change made: 5 % of a head of metres needs three
  // or four steps to 1e-8 m. A limit that lets go on the way costs more.
  int changed = 0;
  int within_three = 0;
  int within_five = 0;
  int unchanged = 0;
  double warm_sum = 0.0;
  double cold_sum = 0.0;
  for (const RandomNetwork& farm : networks_of_size(FarmKind::Prototype, 20, 20, 500)) {
    NodalSolver solver(farm.problem());
    const Solution cold = solver.solve(farm.problem(), {});
    for (std::size_t edge = 0; edge < farm.problem().edges.size(); ++edge) {
      if (farm.problem().edges[edge].kind != nodal::EdgeKind::LimitedSupply) {
        continue;
      }
      for (const double factor : {0.95, 1.05}) {
        nodal::Problem problem = farm.problem();
        problem.edges[edge].limit_m3_s *= factor;
        const Solution warm = solver.solve(problem, {}, &cold.state);
        INFO("seed " << farm.seed << ", edge " << edge << ", yield times " << factor);
        REQUIRE(warm.report.is_usable());
        const int iterations = warm.report.iterations;
        if (iterations == 0) {
          ++unchanged;  // the line takes less than the spring yields, before and after
          continue;
        }
        ++changed;
        within_three += iterations <= 3 ? 1 : 0;
        within_five += iterations <= 5 ? 1 : 0;
        warm_sum += iterations;
        cold_sum += cold.report.iterations;
      }
    }
  }
  CAPTURE(changed, unchanged, within_three, within_five, warm_sum, cold_sum);
  REQUIRE(changed > 300);
  REQUIRE(unchanged > 300);
  CHECK(within_three >= 0.95 * changed);
  CHECK(within_five >= 0.98 * changed);
  CHECK(warm_sum < 0.5 * cold_sum);
}

TEST_CASE("the unsymmetric factorisation serves only farms that hold a link which needs it",
          "[law]") {
  int symmetric = 0;
  int unsymmetric = 0;
  for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
    const RandomNetwork farm = random_network(seed, FarmKind::Everything);
    const NodalPattern pattern = pattern_of(farm.problem());
    const bool is_symmetric = pattern.shape == MatrixShape::Symmetric;
    INFO("seed " << seed);
    REQUIRE(nodal::solve(farm.problem()).report.symmetric == is_symmetric);
    ++(is_symmetric ? symmetric : unsymmetric);
  }
  CHECK(symmetric > 200);
  CHECK(unsymmetric > 200);
}

TEST_CASE("a step asks the heap a fixed number of times, few where the matrix is symmetric",
          "[law]") {
  // The library's temporaries; METHOD.md, "How fast", says which. Farms of every size, so a count
  // that grew with the farm would show.
  for (const RandomNetwork& farm : farms_of_shape(MatrixShape::Symmetric, 60)) {
    INFO("seed " << farm.seed);
    CHECK(requests_of_a_step(farm) <= 1);
  }
  for (const RandomNetwork& farm : farms_of_shape(MatrixShape::Unsymmetric, 60)) {
    INFO("seed " << farm.seed);
    CHECK(requests_of_a_step(farm) <= 16);
  }
}

TEST_CASE("beside the linear system's own an iteration asks the heap for nothing", "[law]") {
  for (const MatrixShape shape : {MatrixShape::Symmetric, MatrixShape::Unsymmetric}) {
    for (const RandomNetwork& farm : farms_of_shape(shape, 60)) {
      INFO("seed " << farm.seed);
      NodalSolver solver(farm.problem());
      const Solution whole = solver.solve(farm.problem(), {});
      if (whole.report.restarts > 0) {
        continue;  // an attempt's end writes its sentence
      }
      const std::uint64_t of_a_step = requests_of_a_step(farm);
      const int last = whole.report.iterations - 1;
      // Stopped by the limit either way, so that only the iterations between make the difference.
      const std::uint64_t none = requests_of_a_solve(solver, farm, 0);
      const std::uint64_t all = requests_of_a_solve(solver, farm, last);
      const std::uint64_t expected = none + static_cast<std::uint64_t>(last) * of_a_step;
      // The report's table of iterations doubles its room: 1, 2, 4, 8 ... lines.
      const auto doublings = static_cast<std::uint64_t>(std::ceil(std::log2(last + 1.0)));
      CAPTURE(last, of_a_step, none, all);
      CHECK(all >= expected);
      CHECK(all <= expected + doublings);
    }
  }
}

TEST_CASE("the heap's counter sees what the standard library asks for", "[law]") {
  const std::uint64_t before = heap_requests();
  const std::vector<double> some(1000, 1.0);
  CHECK(heap_requests() - before >= 1);
  const std::uint64_t between = heap_requests();
  const std::vector<double> copy = some;
  CHECK(heap_requests() - between >= 1);
  CHECK(copy == some);
}

}  // namespace leat::tests
