// How the work grows with the scheme: 1 000, 10 000 and 100 000 places in three shapes.
#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>

#include <benchmark/benchmark.h>
#include <malloc.h>

#include "solver/flow/flow_state.h"
#include "solver/nodal/newton.h"
#include "tests/support/large_scheme.h"

namespace leat::bench {

namespace {

constexpr std::array<const char*, 3> shape_names = {"bush", "comb", "ribbon"};

double heap_bytes() {
  const struct mallinfo2 heap = mallinfo2();
  return static_cast<double>(heap.uordblks + heap.hblkhd);
}

/// One cold solve a round, search, ordering and analysis with it. What the network and the solver
/// hold is counted at their fullest, in bytes a node.
void solve_scheme(benchmark::State& bench, tests::SchemeShape shape) {
  const model::Farm farm = tests::large_scheme(static_cast<std::size_t>(bench.range(0)), shape, 1);
  const solver::Surroundings around = solver::surroundings_of(farm, std::nullopt);
  const double before = heap_bytes();
  const auto network = solver::network_of(farm, around, {});
  double held = 0.0;
  int iterations = 0;
  for (auto round : bench) {
    nodal::NodalSolver solver(network->problem);
    const nodal::Solution solution = solver.solve(network->problem, {});
    if (!solution.report.is_usable()) {
      bench.SkipWithError(solution.report.sentence.c_str());
      return;
    }
    held = heap_bytes() - before;
    iterations = solution.report.iterations;
  }
  const auto nodes = static_cast<double>(network->problem.nodes.size());
  bench.counters["nodes"] = nodes;
  bench.counters["iterations"] = iterations;
  bench.counters["bytes_a_node"] = held / nodes;
}

[[maybe_unused]] const int made = [] {
  for (std::size_t shape = 0; shape < shape_names.size(); ++shape) {
    const std::string name = std::string("scale/") + shape_names[shape];
    benchmark::RegisterBenchmark(name.c_str(), solve_scheme, static_cast<tests::SchemeShape>(shape))
        ->Arg(1000)
        ->Arg(10000)
        ->Arg(100000)
        ->Unit(benchmark::kMillisecond);
  }
  return 0;
}();

}  // namespace

}  // namespace leat::bench
