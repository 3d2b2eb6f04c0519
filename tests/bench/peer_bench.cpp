// The peer (kinsol_peer.h) on the farms of nodal_bench.cpp, and its share of solved random farms
// with limits beside our own.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "tests/bench/farm_sets.h"
#include "tests/bench/kinsol_peer.h"
#include "tests/support/nodal_pattern.h"

namespace leat::bench {

using tests::RandomNetwork;

namespace {

/// Largest difference of two answers' flows, as a share of the largest flow.
double flow_difference(const nodal::State& a, const nodal::State& b) {
  double largest = 0.0;
  double difference = 0.0;
  for (std::size_t edge = 0; edge < a.flow_m3_s.size(); ++edge) {
    largest = std::max(largest, std::abs(a.flow_m3_s[edge]));
    difference = std::max(difference, std::abs(a.flow_m3_s[edge] - b.flow_m3_s[edge]));
  }
  return largest > 0.0 ? difference / largest : difference;
}

/// KINSol alone; its memory and pattern are at hand.
void peer(benchmark::State& bench, const FarmSet& set, const PeerOptions& options) {
  std::vector<KinsolPeer> peers;
  for (const RandomNetwork& farm : set.farms) {
    peers.emplace_back(farm.problem());
  }
  for (auto round : bench) {
    for (KinsolPeer& one : peers) {
      benchmark::DoNotOptimize(one.solve(options).state.head_m.data());
    }
  }
  double difference = 0.0;
  int unsolved = 0;
  long iterations = 0;
  for (std::size_t i = 0; i < peers.size(); ++i) {
    const PeerAnswer answer = peers[i].solve(options);
    unsolved += answer.converged ? 0 : 1;
    iterations += answer.iterations;
    difference = std::max(difference, flow_difference(set.answers[i].state, answer.state));
  }
  bench.counters["difference"] = difference;
  bench.counters["unsolved"] = unsolved;
  bench.counters["iterations"] = static_cast<double>(iterations);
}

constexpr std::uint64_t random_farms = 2000;
/// What counts as solved: every equation with true min and max holds to a tenth of a millimetre, a
/// ten-thousandth of the demand on our own answers, and every balance to 1e-9 m3/s.
constexpr double solved_within_m = 1e-4;
constexpr double solved_within_m3_s = 1e-9;

/// How many of the random farms with limits are solved, by a way of solving.
template <class Solve>
void success(benchmark::State& bench, const Solve& solve) {
  int solved = 0;
  int farms = 0;
  for (auto round : bench) {
    for (std::uint64_t seed = 1; seed <= random_farms; ++seed) {
      const RandomNetwork farm = tests::random_network(seed, tests::FarmKind::Prototype);
      if (tests::pattern_of(farm.problem()).active.empty()) {
        continue;
      }
      ++farms;
      PeerAnswer answer = solve(farm.problem());
      judge(farm.problem(), PeerOptions{}.scale_s_m2, answer);
      solved +=
          answer.exact_m <= solved_within_m && answer.imbalance_m3_s <= solved_within_m3_s ? 1 : 0;
    }
  }
  bench.counters["farms"] = farms;
  bench.counters["solved"] = solved;
}

PeerAnswer ours(const nodal::Problem& problem) {
  PeerAnswer answer;
  const nodal::Solution solution = nodal::solve(problem);
  answer.state = solution.state;
  answer.converged = solution.report.is_usable();
  answer.iterations = solution.report.iterations;
  return answer;
}

PeerAnswer at_once(const nodal::Problem& problem, double smoothing_m) {
  PeerOptions options;
  options.smoothing_m = smoothing_m;
  return KinsolPeer(problem).solve(options);
}

/// Helped: the smoothing falls tenfold from solve to solve, each from the last one's answer.
PeerAnswer step_by_step(const nodal::Problem& problem) {
  KinsolPeer peer(problem);
  PeerOptions options;
  PeerAnswer answer;
  bool begun = false;
  for (options.smoothing_m = 1.0; options.smoothing_m > 0.5e-6; options.smoothing_m *= 0.1) {
    answer = peer.solve(options, begun);
    begun = true;
  }
  return answer;
}

bool register_all() {
  for (const FarmSet* set : {&limit_free_twenty(), &limit_free_hundred()}) {
    PeerOptions as_delivered;
    as_delivered.steps_a_jacobian = 10;
    const auto measure = [set](const std::string& name, const PeerOptions& options) {
      benchmark::RegisterBenchmark(
          (name + set->name).c_str(),
          [set, options](benchmark::State& bench) { peer(bench, *set, options); });
    };
    measure("peer/", {});
    measure("peer/as delivered/", as_delivered);
  }
  const auto once = [](const char* name, auto solve) {
    benchmark::RegisterBenchmark(name, [solve](benchmark::State& bench) {
      success(bench, solve);
    })->Iterations(1);
  };
  once("solved/ours", ours);
  once("solved/peer, smoothing 1e-6 m",
       [](const nodal::Problem& problem) { return at_once(problem, 1e-6); });
  once("solved/peer, smoothing 1e-5 m",
       [](const nodal::Problem& problem) { return at_once(problem, 1e-5); });
  once("solved/peer, smoothing 1 m to 1e-6 m step by step", step_by_step);
  return true;
}

const bool registered = register_all();

}  // namespace

}  // namespace leat::bench
