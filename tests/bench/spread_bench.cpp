// Draws of a spread on random farms of 20 nodes: the rate a core makes them at. The farms are the
// first 16 of the prototype's kind whose answer brings about nothing more (no line breaks, no tee
// draws air), as most farms' do; one round is 100 draws of each. And the whole study of the first
// of them, 10 000 draws, on one thread and on two.
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include <benchmark/benchmark.h>

#include "solver/uncertainty/sample_solver.h"
#include "solver/uncertainty/spread.h"
#include "tests/support/random_farm.h"

namespace leat::bench {

namespace {

constexpr std::size_t farms = 16;
constexpr std::uint64_t draws_a_round = 100;

struct DrawnFarm {
  std::unique_ptr<model::Farm> farm;
  solver::SpreadBase base;
};

std::vector<DrawnFarm> drawn_farms() {
  std::vector<DrawnFarm> made;
  for (std::uint64_t seed = 1; made.size() < farms; ++seed) {
    auto farm = std::make_unique<model::Farm>(tests::random_farm(seed, tests::FarmKind::Prototype));
    solver::SpreadBase base = solver::spread_base(*farm, {}, seed);
    if (base.start.network->problem.nodes.size() == 20 && !base.has_rounds) {
      made.push_back({std::move(farm), std::move(base)});
    }
  }
  return made;
}

void spread(benchmark::State& bench) {
  const std::vector<DrawnFarm> all = drawn_farms();
  double quick = 0.0;
  double draws = 0.0;
  for (auto round : bench) {
    for (const DrawnFarm& farm : all) {
      solver::DrawSolver solver(farm.base);
      for (std::uint64_t draw = 0; draw < draws_a_round; ++draw) {
        const solver::DrawnAnswer answer = solver.solve(draw);
        quick += answer.way == solver::DrawnAnswer::Way::Quick ? 1.0 : 0.0;
        draws += 1.0;
      }
    }
  }
  bench.counters["draws_a_second"] = benchmark::Counter(draws, benchmark::Counter::kIsRate);
  bench.counters["quick"] = quick / draws;
}

/// By the clock on the wall, since it is the cores together that are asked for, and by the
/// processor time of all threads, which other work on the machine moves little.
void study(benchmark::State& bench) {
  const DrawnFarm first = std::move(drawn_farms().front());
  solver::SpreadOptions options;
  options.draws = 10000;
  options.threads = static_cast<unsigned>(bench.range(0));
  double draws = 0.0;
  for (auto round : bench) {
    const solver::Spread spread = solver::spread_of(*first.farm, options);
    if (spread.draws != options.draws) {
      bench.SkipWithError("the farm has no spread");
      return;
    }
    draws += spread.draws;
  }
  bench.counters["draws_a_second"] = benchmark::Counter(draws, benchmark::Counter::kIsRate);
}

BENCHMARK(spread)->Name("spread/20");
BENCHMARK(study)
    ->Name("spread/threads")
    ->Arg(1)
    ->Arg(2)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);

}  // namespace

}  // namespace leat::bench
