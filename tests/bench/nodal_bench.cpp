// Solves of random farms of one size against their floor: refactoring and solving the same
// patterns as often as the iterations did. One round of a benchmark is the whole set of farms.
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <benchmark/benchmark.h>

#include "solver/nodal/newton.h"
#include "tests/bench/farm_sets.h"
#include "tests/support/nodal_pattern.h"

namespace leat::bench {

using nodal::LinearStep;
using nodal::NodalSolver;
using nodal::Solution;
using tests::RandomNetwork;

namespace {

/// How often an iteration asks for the losses of the whole network, over all cold solves: 1 would
/// be once an iteration.
double loss_sweeps(const FarmSet& set) {
  double asked = 0.0;
  double once = 0.0;
  for (std::size_t i = 0; i < set.farms.size(); ++i) {
    nodal::Problem counted = set.farms[i].problem();
    counted.loss = [&](std::size_t edge, double flow_m3_s) {
      asked += 1.0;
      return set.farms[i].problem().loss(edge, flow_m3_s);
    };
    const Solution solution = nodal::solve(counted);
    for (const std::size_t edge : tests::pattern_of(counted).active) {
      once += counted.edges[edge].has_loss ? solution.report.iterations : 0;
    }
  }
  return asked / once;
}

/// Everything from the problem's numbers to the answer: search, ordering, analysis, iteration.
void whole(benchmark::State& bench, const FarmSet& set) {
  for (auto round : bench) {
    for (const RandomNetwork& farm : set.farms) {
      benchmark::DoNotOptimize(nodal::solve(farm.problem()).state.head_m.data());
    }
  }
  bench.counters["iterations"] = set.iterations;
  bench.counters["sweeps"] = loss_sweeps(set);
  bench.counters["heads"] = set.heads;
}

/// From a cold start, pattern and analysis at hand: as in a season's first day or a spread.
void cold(benchmark::State& bench, const FarmSet& set) {
  std::vector<NodalSolver> solvers = solvers_of(set);
  for (auto round : bench) {
    for (std::size_t i = 0; i < set.farms.size(); ++i) {
      benchmark::DoNotOptimize(solvers[i].solve(set.farms[i].problem(), {}).state.head_m.data());
    }
  }
}

/// From the last answer, after one yield has become 5 % less.
void warm(benchmark::State& bench, const FarmSet& set) {
  std::vector<NodalSolver> solvers = solvers_of(set);
  std::vector<nodal::Problem> changed;
  for (const RandomNetwork& farm : set.farms) {
    changed.push_back(farm.problem());
    for (nodal::Edge& edge : changed.back().edges) {
      if (edge.kind == nodal::EdgeKind::LimitedSupply) {
        edge.limit_m3_s *= 0.95;
        break;
      }
    }
  }
  for (auto round : bench) {
    for (std::size_t i = 0; i < set.farms.size(); ++i) {
      benchmark::DoNotOptimize(
          solvers[i].solve(changed[i], {}, &set.answers[i].state).state.head_m.data());
    }
  }
  // A spring that gives less than its yield, before and after, needs no iteration: left out.
  int others = 0;
  int within_three = 0;
  int most = 0;
  for (std::size_t i = 0; i < set.farms.size(); ++i) {
    const int iterations =
        solvers[i].solve(changed[i], {}, &set.answers[i].state).report.iterations;
    others += iterations > 0 ? 1 : 0;
    within_three += iterations > 0 && iterations <= 3 ? 1 : 0;
    most = std::max(most, iterations);
  }
  bench.counters["changed"] = others;
  bench.counters["within_three"] = within_three;
  bench.counters["most"] = most;
}

/// The linear algebra alone: each farm's matrix at its answer, factorised and solved as often as
/// its solve did. With `refill`, the values are put in anew as well.
void floor_of(benchmark::State& bench, const FarmSet& set) {
  std::vector<LinearStep> steps;
  std::vector<std::vector<double>> right_sides;
  for (std::size_t i = 0; i < set.farms.size(); ++i) {
    const nodal::Problem& problem = set.farms[i].problem();
    const tests::NodalPattern pattern = tests::pattern_of(problem);
    steps.emplace_back(pattern.heads, pattern.couplings, pattern.shape);
    tests::fill_step(steps.back(), problem, pattern, set.answers[i].state, 1e-6);
    if (!steps.back().factorise()) {
      bench.SkipWithError("singular");
      return;
    }
    right_sides.emplace_back(pattern.heads, 1.0);
  }
  for (auto round : bench) {
    for (std::size_t i = 0; i < steps.size(); ++i) {
      for (int step = 0; step < set.answers[i].report.factorisations; ++step) {
        benchmark::DoNotOptimize(steps[i].factorise());
        // Solving its own answer again and again would run into denormal numbers.
        std::fill(right_sides[i].begin(), right_sides[i].end(), 1.0);
        steps[i].solve(right_sides[i]);
      }
    }
  }
}

/// The loss laws alone, as often as the cold solve asks for them at least: once an iteration.
void losses(benchmark::State& bench, const FarmSet& set) {
  for (auto round : bench) {
    for (std::size_t i = 0; i < set.farms.size(); ++i) {
      const nodal::Problem& problem = set.farms[i].problem();
      for (int step = 0; step < set.answers[i].report.iterations; ++step) {
        for (std::size_t edge = 0; edge < problem.edges.size(); ++edge) {
          if (problem.edges[edge].has_loss) {
            benchmark::DoNotOptimize(
                problem.loss(edge, set.answers[i].state.flow_m3_s[edge]).loss_m);
          }
        }
      }
    }
  }
}

using Measure = void (*)(benchmark::State&, const FarmSet&);

bool register_all() {
  const std::vector<std::pair<std::string, Measure>> measures = {
      {"whole", whole}, {"cold", cold}, {"warm", warm}, {"floor", floor_of}, {"losses", losses}};
  for (const FarmSet* set :
       {&symmetric_twenty(), &unsymmetric_twenty(), &limit_free_twenty(), &limit_free_hundred()}) {
    for (const auto& [name, measure] : measures) {
      const Measure run = measure;
      benchmark::RegisterBenchmark((name + "/" + set->name).c_str(),
                                   [run, set](benchmark::State& bench) { run(bench, *set); });
    }
  }
  return true;
}

const bool registered = register_all();

}  // namespace

}  // namespace leat::bench
